#include "server/tournament/signed_result.h"

#include <fmt/format.h>

#include "courthand/event/earlier_result.h"
#include "server/tournament/opening.h"
#include "server/venue/match_teams.h"

namespace courthand::server::tournament {

namespace {

/// The record alone says that its result counts.
bool needs_nobody(const LiveMatch& match) {
    return match.closed() && match.state.forfeited == 0 && !match.protested &&
           match.standing.empty() && match.branches.empty() && match.unreadable.empty() &&
           match.plan.status != PlanStatus::cancelled && match.plan.status != PlanStatus::confirmed;
}

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

}  // namespace

std::optional<event::ResultConfirmed> signed_result(const KnownRecord& known,
                                                    const LiveMatch& match) {
    const event::TournamentState& state = *known.state;
    if (state.confirmer != event::Confirmer::signatures || !needs_nobody(match))
        return std::nullopt;
    const auto ref = match_of_record(state, match.key.match);
    if (!ref || state.match(*ref).result) return std::nullopt;
    event::ResultConfirmed result;
    result.match = state.node(*ref).name;
    if (event::had_result(state, result.match)) return std::nullopt;
    const auto changed_over = turned(known, *ref, match);
    if (!changed_over) return std::nullopt;
    result.from = event::ResultFrom::signed_record;
    for (const SetResult& set : match.state.results) {
        if (set.played == 0) break;
        result.sets.push_back(*changed_over ? event::SetScore{set.score.b, set.score.a}
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
