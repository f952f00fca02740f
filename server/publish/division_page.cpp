#include "server/publish/division_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <variant>

#include "courthand/event/advance.h"
#include "courthand/event/pages.h"
#include "courthand/event/pool_table.h"
#include "server/papers/match_words.h"
#include "server/publish/html.h"
#include "server/publish/match_rows.h"

namespace courthand::server::publish {
namespace {

using event::DivisionIndex;
using event::MatchRef;
using event::PoolIndex;
using event::TournamentState;

/// "2", or "2-3" of teams that stand level.
std::string place_words(std::uint16_t first, std::uint16_t last) {
    return first == last ? fmt::format("{}", first) : fmt::format("{}-{}", first, last);
}

std::string standing_row(const TournamentState& state, event::TeamIndex team,
                         const std::string& place, const standings::Record& record) {
    return fmt::format(
        "<tr><td>{}</td><th scope=\"row\">{}</th><td>{}-{}</td><td>{}-{}</td>"
        "<td>{}-{}</td></tr>",
        place, team_link(state, team), record.won, record.lost, record.sets_won, record.sets_lost,
        record.points_won, record.points_lost);
}

std::string standing_rows(const TournamentState& state, const event::PoolState& pool,
                          const event::Standing& how) {
    std::string html;
    const auto row = [&](standings::TeamIndex team, const std::string& place) {
        html += standing_row(state, pool.teams[team], place, how.table.records[team]);
    };
    for (const standings::Place& place : how.table.places)
        for (const standings::TeamIndex team : place.teams)
            row(team, place_words(place.number, static_cast<std::uint16_t>(
                                                    place.number + place.teams.size() - 1)));
    for (const standings::TeamIndex team : how.unplayed) row(team, "-");
    for (const standings::TeamIndex team : how.table.withdrawn) row(team, "withdrawn");
    return html;
}

std::string standing_html(const TournamentState& state, DivisionIndex d, PoolIndex p,
                          const std::string& title) {
    const auto found = event::standing(state, d, p);
    const auto* how = std::get_if<event::Standing>(&found);
    if (how == nullptr) return "<p>This pool cannot be put in order; ask the desk.</p>";
    std::string html = fmt::format(
        "<table><caption class=\"unseen\">{}</caption><thead><tr><th scope=\"col\">Place</th>"
        "<th scope=\"col\">Team</th><th scope=\"col\">Won-lost</th><th scope=\"col\">Sets</th>"
        "<th scope=\"col\">Points</th></tr></thead><tbody>{}</tbody></table>",
        escaped(title), standing_rows(state, state.divisions[d].pools[p], *how));
    if (const std::string words = event::provisional_words(*how); !words.empty())
        html += fmt::format("<p><small>{}</small></p>", escaped(words));
    return html;
}

void add_pool(const TournamentState& state, DivisionIndex d, PoolIndex p, Page& page) {
    const event::Division& division = state.divisions[d];
    const std::string title =
        fmt::format("{}, pool {}", papers::division_words(division), division.pools[p].name);
    std::string id = fmt::format("pool-{}-{}", d, p);
    std::string html = fmt::format("<section id=\"{}\"><h2>{}</h2>{}</section>", id, escaped(title),
                                   standing_html(state, d, p, title));
    page.fragments.push_back({std::move(id), std::move(html)});
    std::vector<MatchRef> matches;
    for (const event::MatchIndex m : division.graph.pools[p].matches) matches.push_back({d, m});
    page.fragments.push_back(match_table(state, fmt::format("matches-of-pool-{}-{}", d, p),
                                         "Matches of pool " + division.pools[p].name, matches));
}

/// Rounds of the matches outside the pools, in the order in which the graph has them.
using Round = std::pair<tournament::Stage, std::uint16_t>;
std::map<Round, std::vector<MatchRef>> rounds_of(const TournamentState& state, DivisionIndex d) {
    std::map<Round, std::vector<MatchRef>> rounds;
    const auto& matches = state.divisions[d].graph.matches;
    for (std::size_t m = 0; m < matches.size(); ++m)
        if (!matches[m].pool)
            rounds[{matches[m].stage, matches[m].round}].push_back(
                {d, static_cast<event::MatchIndex>(m)});
    return rounds;
}

std::string round_words(Round round) {
    switch (round.first) {
        case tournament::Stage::pool:
            break;
        case tournament::Stage::main:
            return fmt::format("Round {}", round.second);
        case tournament::Stage::losers:
            return fmt::format("Losers' bracket, round {}", round.second);
        case tournament::Stage::consolation:
            return fmt::format("Consolation, round {}", round.second);
        case tournament::Stage::placement:
            return fmt::format("Placement, round {}", round.second);
        case tournament::Stage::third_place:
            return "Match for third place";
        case tournament::Stage::final:
            return "Final";
    }
    return fmt::format("Matches, round {}", round.second);
}

Fragment places_fragment(const TournamentState& state, DivisionIndex d) {
    std::string id = fmt::format("places-{}", d);
    const auto ended = event::final_places(state, d);
    std::string html = fmt::format("<section id=\"{}\"><h2>{}</h2>", id,
                                   escaped(papers::division_words(state.divisions[d])));
    if (!ended.empty()) {
        html += "<h3>Final places</h3><ul class=\"places\">";
        for (const event::Ended& place : ended)
            html += fmt::format("<li><b>{}</b> {}</li>", place_words(place.first, place.last),
                                team_link(state, place.team));
        html += "</ul>";
    }
    return {std::move(id), html + "</section>"};
}

}  // namespace

Page pools_page(const HallView& hall) {
    Page page{"pools.html", event::pools_title, {plan_fragment(*hall.event)}};
    for (DivisionIndex d = 0; d < hall.event->division_count(); ++d)
        for (std::size_t p = 0; p < hall.event->divisions[d].pools.size(); ++p)
            add_pool(*hall.event, d, static_cast<PoolIndex>(p), page);
    if (page.fragments.size() == 1)
        page.fragments.push_back({"no-pools", "<p id=\"no-pools\">No pools are drawn yet.</p>"});
    return page;
}

Page brackets_page(const HallView& hall) {
    const TournamentState& state = *hall.event;
    Page page{"brackets.html", event::brackets_title, {plan_fragment(*hall.event)}};
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        const auto rounds = rounds_of(state, d);
        if (rounds.empty()) continue;
        page.fragments.push_back(places_fragment(state, d));
        for (const auto& [round, matches] : rounds)
            page.fragments.push_back(match_table(
                state,
                fmt::format("round-{}-{}-{}", d, static_cast<int>(round.first), round.second),
                round_words(round), matches));
    }
    if (page.fragments.size() == 1)
        page.fragments.push_back(
            {"no-brackets", "<p id=\"no-brackets\">No bracket is drawn yet.</p>"});
    return page;
}

}  // namespace courthand::server::publish
