#include "server/desk/match_planning.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <utility>

#include "courthand/event/fact_fields.h"
#include "courthand/rules/profile.h"
#include "server/desk/court_facts.h"
#include "server/desk/match_facts.h"
#include "server/desk/team_lists.h"
#include "server/tournament/opening.h"
#include "wire/message_limits.h"

namespace courthand::server::desk {

using event::TeamIndex;
using tournament::Act;
using tournament::KnownRecord;

namespace {

Status invalid(std::string message, std::string cure) {
    return Status::failed(StatusCode::invalid, std::move(message), std::move(cure));
}

Status check_court(std::uint32_t court) {
    if (court <= wire::most_courts) return Status::fine();
    return invalid(fmt::format("{} is not a court number", court),
                   fmt::format("courts are numbered 1 to {}", wire::most_courts));
}

Status check_format(const MatchFormat& format) {
    if (format.sets < 1 || format.sets > MatchFormat::most_sets)
        return invalid(fmt::format("a match of {} sets is not possible", format.sets),
                       fmt::format("choose 1 to {} sets", MatchFormat::most_sets));
    if (format.all_sets_played == 0 && format.sets % 2 == 0)
        return invalid(fmt::format("the best of {} sets may end even", format.sets),
                       "choose an odd number of sets, or let all sets be played");
    if (format.points == 0 || format.deciding_points == 0 || format.lead == 0)
        return invalid("a set needs points and a lead", "give numbers from 1");
    return Status::fine();
}

Status other_match() {
    return Status::failed(StatusCode::already_exists, "this id is that of another match",
                          "send the request with a new id");
}

Result<TeamIndex> team_of(const KnownRecord& known, TeamId id, const char* which) {
    if (const auto team = find_team(known, id)) return *team;
    return Status::failed(StatusCode::not_found,
                          fmt::format("the {} team is not on the desk's list", which),
                          "import its list first, or choose another team");
}

Result<const Profile*> profile_of(const std::string& id) {
    if (const Profile* profile = find_profile(id)) return profile;
    return invalid(fmt::format("there is no rule profile \"{}\"", id),
                   fmt::format("the profiles are {}", fmt::join(profile_ids(), ", ")));
}

Status within_bounds(const std::vector<event::Said>& said) {
    for (const event::Said& one : said)
        if (const auto wrong = event::out_of_bounds(one.fact))
            return invalid(fmt::format("the {} of the match {}", wrong->field, wrong->message),
                           "correct it and plan the match again");
    return Status::fine();
}

/// What the wish says by itself; the teams come from the record.
Result<MatchPlan> wished(const MatchWish& wish) {
    if (wish.key.match.nil()) return invalid("the match has no id", "send a new UUID");
    if (Status status = check_court(wish.court); !status.ok()) return status;
    if (wish.first == wish.second)
        return invalid("a team cannot play against itself", "choose two teams");
    const Result<const Profile*> profile = profile_of(wish.profile);
    if (!profile.ok()) return profile.status();
    MatchPlan plan;
    plan.key = wish.key;
    plan.court = wish.court;
    plan.first.id = wish.first;
    plan.second.id = wish.second;
    plan.format = wish.format.value_or((*profile)->rules.format);
    plan.profile = wish.profile;
    plan.profile_hash = (*profile)->hash;
    plan.scheduled_at = wish.scheduled_at;
    if (Status status = check_format(plan.format); !status.ok()) return status;
    return plan;
}

/// Nothing when the record has the match already.
Result<std::vector<Act::Said>> missing_of(const KnownRecord& known, const MatchPlan& plan) {
    const auto first = team_of(known, plan.first.id, "first");
    if (!first.ok()) return first.status();
    const auto second = team_of(known, plan.second.id, "second");
    if (!second.ok()) return second.status();
    const event::TournamentState& state = *known.state;
    if (const auto ref = tournament::match_of_record(state, plan.key.match)) {
        const std::array<TeamIndex, 2> wanted{*first, *second};
        for (std::size_t i = 0; i < 2; ++i)
            if (state.side(*ref, i).team != wanted[i]) return other_match();
        return std::vector<Act::Said>{};
    }
    auto said = match_facts(known, free_match_name(state, state.match_names.size() + 1), plan,
                            *first, *second);
    if (Status status = within_bounds(said); !status.ok()) return status;
    return said_of(plan.key.match, std::move(said));
}

/// A repeated request finds what the first one made.
Result<MatchPlan> made_before(MatchStore& matches, const MatchPlan& plan) {
    const Result<StoredMatch> stored = matches.match(plan.key);
    if (!stored.ok()) return stored.status();
    const MatchPlan& made = stored->plan;
    if (made.first.id == plan.first.id && made.second.id == plan.second.id) return made;
    return other_match();
}

}  // namespace

Result<MatchPlan> plan_match(const Planning& planning, const MatchWish& wish) {
    Result<MatchPlan> wanted = wished(wish);
    if (!wanted.ok()) return wanted;
    MatchPlan plan = *std::move(wanted);
    auto before = made_before(planning.matches, plan);
    if (before.ok() || before.status().code != StatusCode::not_found) return before;
    const auto known =
        tournament::say(planning.record, planning.speaker,
                        [&](const KnownRecord& record) { return missing_of(record, plan); });
    if (!known.ok()) return known.status();
    plan.first = tournament::planned_team(*known, *find_team(*known, wish.first));
    plan.second = tournament::planned_team(*known, *find_team(*known, wish.second));
    Result<MatchPlan> made = planning.matches.create_match(plan);
    if (made.status().code != StatusCode::already_exists) return made;
    // The opener of this server or another was as quick. Its time is told to the minute.
    made = made_before(planning.matches, plan);
    if (!made.ok() || made->scheduled_at == plan.scheduled_at) return made;
    made->scheduled_at = plan.scheduled_at;
    return planning.matches.change_match(*made);
}

Result<MatchPlan> assign_court(const Planning& planning, MatchKey match, std::uint32_t court) {
    if (Status status = check_court(court); !status.ok()) return status;
    const Result<StoredMatch> stored = planning.matches.match(match);
    if (!stored.ok()) return stored.status();
    MatchPlan plan = stored->plan;
    const auto said = tournament::say(
        planning.record, planning.speaker,
        [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
            // One that a table has opened by itself stands in no record of the tournament.
            const auto ref = tournament::match_of_record(*known.state, match.match);
            return tournament::newly_said(ref ? court_of_match_facts(known, *ref, plan, court)
                                          : court != 0 ? court_facts(*known.state, {court, ""})
                                                       : std::vector<event::Said>{});
        });
    if (!said.ok()) return said.status();
    plan.court = court;
    return planning.matches.change_match(plan);
}

}  // namespace courthand::server::desk
