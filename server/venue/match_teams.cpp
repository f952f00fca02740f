#include "server/venue/match_teams.h"

#include <utility>

namespace courthand::server::venue {

namespace {

void take_words(PlannedTeam& team, const TeamWords& words) {
    if (!words.name.empty()) team.name = words.name;
    if (!words.club.empty()) team.club = words.club;
    if (!words.colour.empty()) team.colour = words.colour;
}

}  // namespace

MatchTeams teams_of(const LiveMatch& match) {
    const PerTeam<TeamWords>& words = match.words;
    const std::string& first = match.plan.first.name;
    const std::string& second = match.plan.second.name;
    MatchTeams teams;
    teams.team[Team::A] = match.plan.first;
    teams.team[Team::B] = match.plan.second;
    if (first != second)
        teams.first_is_b = words[Team::A].name == second || words[Team::B].name == first;
    if (teams.first_is_b) std::swap(teams.team.a, teams.team.b);
    take_words(teams.team[Team::A], words[Team::A]);
    take_words(teams.team[Team::B], words[Team::B]);
    return teams;
}

PerTeam<std::string> names_of(const MatchTeams& teams) {
    return {teams.team.a.name, teams.team.b.name};
}

}  // namespace courthand::server::venue
