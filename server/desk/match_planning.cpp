#include "server/desk/match_planning.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "courthand/rules/profile.h"
#include "wire/message_limits.h"

namespace courthand::server::desk {

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

PlannedTeam planned(const Team& team) {
    return {team.id, team.name, team.club, team.colour};
}

Result<Team> team_of(DeskStore& desk, TeamId id, const char* which) {
    Result<Team> team = desk.team(id);
    if (!team.ok() && team.status().code == StatusCode::not_found)
        return Status::failed(StatusCode::not_found,
                              fmt::format("the {} team is not on the desk's list", which),
                              "import its list first, or choose another team");
    return team;
}

Result<const Profile*> profile_of(const std::string& id) {
    if (const Profile* profile = find_profile(id)) return profile;
    return invalid(fmt::format("there is no rule profile \"{}\"", id),
                   fmt::format("the profiles are {}", fmt::join(profile_ids(), ", ")));
}

Status keep_court_of(DeskStore& desk, std::uint32_t court) {
    return court == 0 ? Status::fine() : desk.keep_court({court, ""});
}

// A repeated request finds what the first one made.
Result<MatchPlan> made_before(MatchStore& matches, const MatchPlan& plan, const Status& status) {
    if (status.code != StatusCode::already_exists) return status;
    const Result<StoredMatch> stored = matches.match(plan.key);
    if (!stored.ok()) return stored.status();
    const MatchPlan& made = stored->plan;
    if (made.first.id == plan.first.id && made.second.id == plan.second.id) return made;
    return Status::failed(StatusCode::already_exists, "this id is that of another match",
                          "send the request with a new id");
}

}  // namespace

Result<MatchPlan> plan_match(DeskStore& desk, MatchStore& matches, const MatchWish& wish) {
    if (wish.key.match.nil()) return invalid("the match has no id", "send a new UUID");
    if (Status status = check_court(wish.court); !status.ok()) return status;
    if (wish.first == wish.second)
        return invalid("a team cannot play against itself", "choose two teams");
    const Result<const Profile*> profile = profile_of(wish.profile);
    if (!profile.ok()) return profile.status();
    const Result<Team> first = team_of(desk, wish.first, "first");
    if (!first.ok()) return first.status();
    const Result<Team> second = team_of(desk, wish.second, "second");
    if (!second.ok()) return second.status();

    MatchPlan plan;
    plan.key = wish.key;
    plan.court = wish.court;
    plan.first = planned(*first);
    plan.second = planned(*second);
    plan.format = wish.format.value_or((*profile)->rules.format);
    plan.profile = wish.profile;
    plan.profile_hash = (*profile)->hash;
    plan.scheduled_at = wish.scheduled_at;
    if (Status status = check_format(plan.format); !status.ok()) return status;
    if (Status status = keep_court_of(desk, plan.court); !status.ok()) return status;
    Result<MatchPlan> made = matches.create_match(plan);
    return made.ok() ? made : made_before(matches, plan, made.status());
}

Result<MatchPlan> assign_court(DeskStore& desk, MatchStore& matches, MatchKey match,
                               std::uint32_t court) {
    if (Status status = check_court(court); !status.ok()) return status;
    const Result<StoredMatch> stored = matches.match(match);
    if (!stored.ok()) return stored.status();
    MatchPlan plan = stored->plan;
    plan.court = court;
    if (Status status = keep_court_of(desk, court); !status.ok()) return status;
    return matches.change_match(plan);
}

}  // namespace courthand::server::desk
