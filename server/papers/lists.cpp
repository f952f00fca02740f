#include "server/papers/lists.h"

#include <fmt/format.h>

#include "courthand/event/pool_table.h"
#include "courthand/event/summary.h"
#include "server/papers/match_words.h"
#include "server/papers/row_list.h"

namespace courthand::server::papers {
namespace {

using event::DivisionIndex;
using event::TournamentState;

std::string title_of(const event::Division& division, const char* what) {
    return fmt::format("{}, {}", division_words(division), what);
}

std::string places(std::size_t first, std::size_t last) {
    return first == last ? fmt::format("{}", first) : fmt::format("{}-{}", first, last);
}

void list_pool(RowList& list, const TournamentState& state, DivisionIndex index,
               event::PoolIndex number) {
    const event::PoolState& pool = state.divisions[index].pools[number];
    const auto found = event::standing(state, index, number);
    const auto* how = std::get_if<event::Standing>(&found);
    if (how == nullptr) return;
    list.heading("Pool " + pool.name + (how->provisional() ? ", places so far" : ""),
                 pool.teams.size());
    const auto row = [&](const std::string& place, standings::TeamIndex team) {
        const standings::Record& r = how->table.records[team];
        const event::Team& who = state.teams[pool.teams[team]];
        list.row({place, who.name, who.club, fmt::format("{}-{}", r.won, r.lost),
                  fmt::format("{}-{}", r.sets_won, r.sets_lost),
                  fmt::format("{}-{}", r.points_won, r.points_lost)});
    };
    for (const standings::Place& place : how->table.places)
        for (const standings::TeamIndex team : place.teams)
            row(places(place.number, place.number + place.teams.size() - 1U), team);
    for (const standings::TeamIndex team : how->unplayed) row("-", team);
    for (const standings::TeamIndex team : how->table.withdrawn) row("left", team);
}

void list_finals(RowList& list, const TournamentState& state, const event::FinalPlaces& finals) {
    list.heading("Final places");
    for (const event::TeamPlace& place : finals.places) {
        const auto team = state.find_team(place.team);
        list.row({places(place.first, place.last), place.team,
                  team ? state.teams[*team].club : std::string{}});
    }
}

}  // namespace

void draw_standings(Paper& paper, const TournamentState& state, DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    RowList list{paper,
                 title_of(division, "standings"),
                 {{"place", 16, Align::right, true},
                  {"team", 68, Align::left, true},
                  {"club", 48},
                  {"won-lost", 18, Align::centre},
                  {"sets", 16, Align::centre},
                  {"points", 20, Align::centre}}};
    for (const event::FinalPlaces& finals : event::summary(state).finals)
        if (finals.division == division.rules.division) list_finals(list, state, finals);
    for (std::size_t p = 0; p < division.pools.size(); ++p)
        list_pool(list, state, index, static_cast<event::PoolIndex>(p));
}

void draw_results(Paper& paper, const TournamentState& state, DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    if (division.matches.empty()) return;
    RowList list{paper,
                 title_of(division, "results"),
                 {{"match", 16, Align::left, true},
                  {"first", 46},
                  {"second", 46},
                  {"sets", 12, Align::centre, true},
                  {"points", 38},
                  {"from", 28}}};
    const bool days = state.opened && state.opened->first_day != state.opened->last_day;
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        const event::MatchRef ref{index, static_cast<event::MatchIndex>(m)};
        const event::MatchState& match = division.matches[m];
        const bool counts = match.result && match.result_counts;
        list.row({state.node(ref).name, side_words(state, ref, 0), side_words(state, ref, 1),
                  counts ? sets_words(*match.result) : std::string{},
                  counts ? points_words(*match.result) : std::string{},
                  counts ? origin_words(*match.result) : place_words(match, days)});
    }
}

}  // namespace courthand::server::papers
