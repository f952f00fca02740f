#include "server/papers/play_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <tuple>
#include <vector>

#include "server/papers/match_words.h"
#include "server/papers/row_list.h"

namespace courthand::server::papers {
namespace {

using event::MatchRef;
using event::TournamentState;

bool several_days(const TournamentState& state) {
    return state.opened && state.opened->first_day != state.opened->last_day;
}

const event::Placement* place_of(const TournamentState& state, MatchRef ref) {
    const auto& placement = state.match(ref).placement;
    return placement ? &*placement : nullptr;
}

/// By court, day, time; those that have no court at the end, as the graph has them.
std::vector<MatchRef> in_order(const TournamentState& state) {
    std::vector<MatchRef> all;
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m) {
            const MatchRef ref{d, static_cast<event::MatchIndex>(m)};
            if (place_of(state, ref) != nullptr || !state.match(ref).result_counts)
                all.push_back(ref);
        }
    const auto key = [&](MatchRef ref) {
        const event::Placement* const place = place_of(state, ref);
        return place == nullptr ? std::tuple{1, 0, 0, ref}
                                : std::tuple{0, int{place->court}, place->at.minutes, ref};
    };
    std::sort(all.begin(), all.end(), [&](MatchRef a, MatchRef b) { return key(a) < key(b); });
    return all;
}

/// What matches of one court and day stand under.
std::string heading_of(const TournamentState& state, MatchRef ref) {
    const event::Placement* const place = place_of(state, ref);
    if (place == nullptr) return "Without a court yet";
    const event::Date day = place->at.date();
    return place->at.given() && several_days(state)
               ? fmt::format("Court {}, {}", place->court, days_words(day, day))
               : fmt::format("Court {}", place->court);
}

std::string time_of(const TournamentState& state, MatchRef ref) {
    const event::Placement* const place = place_of(state, ref);
    return place != nullptr && place->at.given() ? event::written(place->at).substr(11)
                                                 : std::string{};
}

struct Cell {
    const char* title;
    double width;
    bool bold;
};
/// Of a page that lies across.
constexpr std::array pool_cells{Cell{"match", 18, true},  Cell{"court", 38, false},
                                Cell{"first", 60, false}, Cell{"second", 60, false},
                                Cell{"work", 50, false},  Cell{"referees", 18, false},
                                Cell{"crew", 27, false}};
constexpr double pool_row = 5;

double draw_pool_row(Paper& paper, const std::array<std::string, pool_cells.size()>& words,
                     double y, bool head) {
    double x = paper.room().x;
    for (std::size_t i = 0; i < pool_cells.size(); ++i) {
        paper.write({x + 1, y, pool_cells[i].width - 2, pool_row}, words[i],
                    {head ? 7.5 : 8.0, head || pool_cells[i].bold});
        x += pool_cells[i].width;
    }
    if (head) paper.line(paper.room().x, y + pool_row, x, y + pool_row, 0.3);
    return y + pool_row;
}

}  // namespace

void draw_order_of_play(Paper& paper, const TournamentState& state) {
    const std::vector<MatchRef> matches = in_order(state);
    if (matches.empty() || place_of(state, matches.front()) == nullptr) return;
    RowList list{paper,
                 "order of play",
                 {{"time", 13, Align::left, true},
                  {"match", 14, Align::left, true},
                  {"first", 42},
                  {"second", 42},
                  {"work", 39},
                  {"referees", 16},
                  {"crew", 20}}};
    for (std::size_t m = 0; m < matches.size(); ++m) {
        const MatchRef ref = matches[m];
        const event::Duty& duty = state.match(ref).duty;
        const std::string heading = heading_of(state, ref);
        if (m == 0 || heading_of(state, matches[m - 1]) != heading) {
            const auto others =
                std::find_if(matches.begin() + static_cast<std::ptrdiff_t>(m), matches.end(),
                             [&](MatchRef next) { return heading_of(state, next) != heading; });
            list.heading(heading, static_cast<std::size_t>(others - matches.begin()) - m);
        }
        list.row({time_of(state, ref), state.node(ref).name, side_words(state, ref, 0),
                  side_words(state, ref, 1), work_words(state, ref), referees_words(duty),
                  duty.crew});
    }
}

void draw_pool_play(Paper& paper, const TournamentState& state, event::DivisionIndex division,
                    event::PoolIndex pool, const std::string& title, double y) {
    const auto& matches = state.divisions[division].graph.pools[pool].matches;
    if (matches.empty()) return;
    const auto begin = [&] {
        paper.turn_to(title + ": order of play", Paper::Turn::across);
        y = paper.room().y;
    };
    const auto fits = [&](double height) {
        return y + height <= paper.room().y + paper.room().height;
    };
    std::array<std::string, pool_cells.size()> titles;
    for (std::size_t i = 0; i < titles.size(); ++i) titles[i] = pool_cells[i].title;
    if (!fits(pool_row * static_cast<double>(matches.size() + 1))) begin();
    y = draw_pool_row(paper, titles, y, true);
    for (const event::MatchIndex m : matches) {
        const MatchRef ref{division, m};
        const event::Duty& duty = state.match(ref).duty;
        if (!fits(pool_row)) {
            begin();
            y = draw_pool_row(paper, titles, y, true);
        }
        y = draw_pool_row(paper,
                          {state.node(ref).name, place_words(state.match(ref), several_days(state)),
                           side_words(state, ref, 0), side_words(state, ref, 1),
                           work_words(state, ref), referees_words(duty), duty.crew},
                          y, false);
    }
}

}  // namespace courthand::server::papers
