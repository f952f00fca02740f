#include "server/tournament/signed_result.h"

#include <fmt/format.h>

#include "courthand/event/earlier_result.h"
#include "server/tournament/opening.h"
#include "server/venue/match_teams.h"

namespace courthand::server::tournament {

namespace {

/// Whether A of the record is the second side of the match; nothing when others play.
std::optional<bool> turned(const KnownRecord& known, event::MatchRef ref, const LiveMatch& match) {
    const event::Side first = known.state->side(ref, 0);
    const event::Side second = known.state->side(ref, 1);
    if (!first.is_team() || !second.is_team()) return std::nullopt;
    const TeamId one = planned_team(known, first.team).id;
    const TeamId other = planned_team(known, second.team).id;
    const auto& team = venue::teams_of(match).team;
    if (team.a.id == one && team.b.id == other) return false;
    if (team.a.id == other && team.b.id == one) return true;
    return std::nullopt;
}

/// What a person must weigh; empty: nothing.
std::string to_weigh(const KnownRecord& known, event::MatchRef ref, const LiveMatch& match) {
    if (match.state.forfeited != 0) return "it was lost by default and is to be awarded";
    if (match.plan.status == PlanStatus::cancelled || match.plan.status == PlanStatus::confirmed)
        return "the desk has closed or cancelled the match";
    if (!match.unreadable.empty()) return "its record cannot be read: " + match.unreadable;
    if (!match.branches.empty()) return "a branch beside its record waits to be chosen or dropped";
    if (match.protested) return "a team has announced a protest";
    if (!match.standing.empty()) return "a verdict still stands";
    if (event::had_result(*known.state, known.state->node(ref).name))
        return "it had a result that was reopened or taken back";
    if (!turned(known, ref, match)) return "the tournament has other teams in it";
    if (match.closed_at < known.signatures_since)
        return "it was signed before signatures confirmed results";
    return {};
}

/// The match of the record whose result is that of the signatures, if nobody has to weigh it.
std::optional<event::MatchRef> awaited(const KnownRecord& known, const LiveMatch& match) {
    const event::TournamentState& state = *known.state;
    if (state.confirmer != event::Confirmer::signatures || !match.closed()) return std::nullopt;
    const auto ref = match_of_record(state, match.key.match);
    return ref && !state.match(*ref).result ? ref : std::nullopt;
}

}  // namespace

std::string left_to_desk(const KnownRecord& known, const LiveMatch& match) {
    const auto ref = awaited(known, match);
    return ref ? to_weigh(known, *ref, match) : std::string{};
}

std::optional<event::ResultConfirmed> signed_result(const KnownRecord& known,
                                                    const LiveMatch& match) {
    const event::TournamentState& state = *known.state;
    const auto ref = awaited(known, match);
    if (!ref || !to_weigh(known, *ref, match).empty()) return std::nullopt;
    event::ResultConfirmed result;
    result.match = state.node(*ref).name;
    const bool changed_over = turned(known, *ref, match).value();
    result.from = event::ResultFrom::signed_record;
    for (const SetResult& set : match.state.results) {
        if (set.played == 0) break;
        result.sets.push_back(changed_over ? event::SetScore{set.score.b, set.score.a}
                                           : event::SetScore{set.score.a, set.score.b});
    }
    result.record = record_id(match.key.match);
    result.head.bytes = match.head.hash;
    return result;
}

std::string signing_author() {
    std::string words = "signed by";
    for (const Signer signer : closing_signers) words += fmt::format(" {}", choice_word(signer));
    return words;
}

}  // namespace courthand::server::tournament
