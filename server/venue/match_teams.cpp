#include "server/venue/match_teams.h"

#include <utility>

#include "courthand/v1/fact.pb.h"

namespace courthand::server::venue {

namespace {

// The words that travel with an entry's fact; empty when there are none or they cannot be read.
v1::FactText text_of(const LiveMatch& match, EntryNumber number) {
    v1::FactText text;
    if (number == 0 || number > match.texts.size()) return text;
    if (!text.ParseFromString(match.texts[number - 1])) text.Clear();
    return text;
}

PerTeam<v1::FactText> roster_texts(const LiveMatch& match) {
    PerTeam<v1::FactText> texts;
    for (const Entry& entry : match.entries)
        if (const auto* roster = std::get_if<Roster>(&entry.fact))
            texts[roster->team] = text_of(match, entry.number);
    return texts;
}

void take_words(PlannedTeam& team, const v1::FactText& text) {
    if (!text.team_name().empty()) team.name = text.team_name();
    if (!text.club().empty()) team.club = text.club();
    if (!text.colour().empty()) team.colour = text.colour();
}

}  // namespace

MatchTeams teams_of(const LiveMatch& match) {
    const PerTeam<v1::FactText> texts = roster_texts(match);
    const std::string& first = match.plan.first.name;
    const std::string& second = match.plan.second.name;
    MatchTeams teams;
    teams.team[Team::A] = match.plan.first;
    teams.team[Team::B] = match.plan.second;
    if (first != second)
        teams.first_is_b =
            texts[Team::A].team_name() == second || texts[Team::B].team_name() == first;
    if (teams.first_is_b) std::swap(teams.team.a, teams.team.b);
    take_words(teams.team[Team::A], texts[Team::A]);
    take_words(teams.team[Team::B], texts[Team::B]);
    return teams;
}

PerTeam<std::string> names_of(const MatchTeams& teams) {
    return {teams.team.a.name, teams.team.b.name};
}

}  // namespace courthand::server::venue
