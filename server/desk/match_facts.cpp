#include "server/desk/match_facts.h"

#include <fmt/format.h>

#include "courthand/rules/profile.h"
#include "server/desk/court_facts.h"
#include "server/tournament/derived_id.h"
#include "server/tournament/hall_clock.h"
#include "server/tournament/opening.h"

namespace courthand::server::desk {

using event::Said;
using tournament::KnownRecord;

namespace {

event::Source side(const std::string& team) {
    return {event::Source::Kind::team, team, 0, {}};
}

void append(std::vector<Said>& said, std::vector<Said> more) {
    said.insert(said.end(), std::make_move_iterator(more.begin()),
                std::make_move_iterator(more.end()));
}

event::LocalTime time_of(const KnownRecord& known, const MatchPlan& plan) {
    if (!plan.scheduled_at) return {};
    return tournament::HallClock{*known.state}.shows(*plan.scheduled_at);
}

std::vector<Said> placed(const KnownRecord& known, const std::string& name, const MatchPlan& plan,
                         std::uint32_t court) {
    std::vector<Said> said = court_facts(*known.state, {court, ""});
    event::MatchPlaced place;
    place.match = name;
    place.court = static_cast<std::uint16_t>(court);
    place.at = time_of(known, plan);
    // Without a time it comes when the match before it on its court is over.
    place.timing = place.at.given() ? event::Timing::fixed : event::Timing::follows;
    said.push_back({std::move(place), {}});
    return said;
}

}  // namespace

std::vector<Said> match_facts(const KnownRecord& known, const std::string& name,
                              const MatchPlan& plan, event::TeamIndex first,
                              event::TeamIndex second) {
    const event::TournamentState& state = *known.state;
    const event::Division& division = state.divisions[state.teams[first].division];
    event::MatchAdded added;
    added.match = name;
    added.division = division.rules.division;
    added.first = side(state.teams[first].name);
    added.second = side(state.teams[second].name);
    MatchFormat usual = division.format;
    if (plan.profile != division.profile->id) {
        added.profile = plan.profile;
        if (const Profile* own = find_profile(plan.profile)) usual = own->rules.format;
    }
    if (plan.format != usual) added.format = {true, plan.format};
    std::vector<Said> said{{std::move(added), {}}};
    if (plan.court != 0) append(said, placed(known, name, plan, plan.court));
    said.push_back({event::RecordOpened{name, tournament::record_id(plan.key.match)}, {}});
    return said;
}

std::vector<tournament::Act::Said> said_of(MatchId match, std::vector<Said> facts) {
    std::vector<tournament::Act::Said> said;
    for (Said& fact : facts)
        said.push_back({tournament::FactId{tournament::derived_id(
                            match.value, fmt::format("planned {}", said.size()))},
                        std::move(fact)});
    return said;
}

std::vector<Said> court_of_match_facts(const KnownRecord& known, event::MatchRef ref,
                                       const MatchPlan& plan, std::uint32_t court) {
    const std::string& name = known.state->node(ref).name;
    const auto& placement = known.state->match(ref).placement;
    if (court == 0 && !placement) return {};
    if (court == 0) return {{event::MatchUnplaced{name}, {}}};
    if (!placement) return placed(known, name, plan, court);
    if (placement->court == court) return {};
    std::vector<Said> said = court_facts(*known.state, {court, ""});
    said.push_back({event::MatchMoved{name, static_cast<std::uint16_t>(court), placement->at}, {}});
    return said;
}

std::string free_match_name(const event::TournamentState& state, std::size_t first) {
    std::string name = fmt::format("{}", first);
    while (state.find_match(name)) name = fmt::format("{}", ++first);
    return name;
}

}  // namespace courthand::server::desk
