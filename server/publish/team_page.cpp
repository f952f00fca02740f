#include "server/publish/team_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "courthand/event/duty.h"
#include "server/papers/match_words.h"
#include "server/publish/court_page.h"
#include "server/publish/html.h"
#include "server/publish/match_rows.h"

namespace courthand::server::publish {
namespace {

using event::MatchRef;
using event::TeamIndex;
using event::TournamentState;

std::string standing_words(const TournamentState& state, const event::Team& team) {
    const event::Division& division = state.divisions[team.division];
    std::string words = papers::division_words(division);
    if (team.pool) words += fmt::format(", pool {}", division.pools[*team.pool].name);
    if (team.withdrawn) words += ", withdrawn";
    return words;
}

/// What is on the court of a match that this team plays now.
void add_courts(const HallView& hall, TeamIndex team, Page& page) {
    const std::string& name = hall.event->teams[team].name;
    for (const CourtNow& now : hall.courts)
        if (now.first == name || now.second == name) page.fragments.push_back(court_fragment(now));
}

Page team_page(const HallView& hall, TeamIndex index) {
    const TournamentState& state = *hall.event;
    const event::Team& team = state.teams[index];
    Page page{team_path(index), team.name, {}};
    page.fragments.push_back({"standing", fmt::format("<p id=\"standing\">{}</p>",
                                                      escaped(standing_words(state, team)))});
    add_courts(hall, index, page);
    page.fragments.push_back(plan_fragment(state));
    page.fragments.push_back(match_table(state, fmt::format("matches-of-{}", index + 1), "Matches",
                                         matches_of(hall, index)));
    page.fragments.push_back(match_table(state, fmt::format("work-of-{}", index + 1),
                                         "Matches this team works", work_of(hall, index)));
    page.fragments.push_back({"calendar", fmt::format("<p id=\"calendar\"><a href=\"team-{}.ics\">"
                                                      "Calendar of this team</a></p>",
                                                      index + 1)});
    return page;
}

}  // namespace

std::vector<MatchRef> matches_of(const HallView& hall, TeamIndex team) {
    std::vector<MatchRef> found;
    for (const MatchRef ref : hall.order)
        if (hall.event->side(ref, 0).team == team || hall.event->side(ref, 1).team == team)
            found.push_back(ref);
    return found;
}

std::vector<MatchRef> work_of(const HallView& hall, TeamIndex team) {
    std::vector<MatchRef> found;
    for (const MatchRef ref : hall.order) {
        const auto source = event::workers_of(*hall.event, ref);
        if (source && hall.event->divisions[ref.division].settled[*source].team == team)
            found.push_back(ref);
    }
    return found;
}

Page teams_page(const HallView& hall) {
    const TournamentState& state = *hall.event;
    Page page{"teams.html", "Teams", {}};
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d) {
        std::string id = fmt::format("teams-{}", d);
        std::string html = fmt::format("<section id=\"{}\"><h2>{}</h2><ul class=\"teams\">", id,
                                       escaped(papers::division_words(state.divisions[d])));
        for (const TeamIndex team : state.divisions[d].teams)
            html += fmt::format("<li>{}{}</li>", team_link(state, team),
                                state.teams[team].withdrawn ? ", withdrawn" : "");
        page.fragments.push_back({std::move(id), html + "</ul></section>"});
    }
    if (page.fragments.empty())
        page.fragments.push_back({"no-teams", "<p id=\"no-teams\">No team has entered yet.</p>"});
    return page;
}

std::vector<Page> team_pages(const HallView& hall) {
    std::vector<Page> pages;
    for (std::size_t team = 0; team < hall.event->teams.size(); ++team)
        pages.push_back(team_page(hall, static_cast<TeamIndex>(team)));
    return pages;
}

}  // namespace courthand::server::publish
