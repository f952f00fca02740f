#include "server/papers/cross_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "courthand/event/pool_table.h"
#include "server/papers/match_words.h"
#include "server/papers/play_order.h"

namespace courthand::server::papers {
namespace {

using event::DivisionIndex;
using event::PoolIndex;
using event::TournamentState;

constexpr double number_width = 8;
constexpr double name_width = 54;
constexpr double sum_width = 16;
constexpr double row_height = 11.5;
constexpr double head_height = 8;
/// So that a match of three sets fits a cell; more opponents go on the next page.
constexpr std::size_t most_columns = 8;
constexpr std::size_t most_rows = 12;

struct Sum {
    const char* title;
    std::string (*of)(const standings::Record&);
};
constexpr Sum sums[] = {
    {"won-lost", [](const standings::Record& r) { return fmt::format("{}-{}", r.won, r.lost); }},
    {"sets",
     [](const standings::Record& r) { return fmt::format("{}-{}", r.sets_won, r.sets_lost); }},
    {"points",
     [](const standings::Record& r) { return fmt::format("{}-{}", r.points_won, r.points_lost); }},
};

/// The pool with its order, and who meets whom.
struct View {
    const TournamentState& state;
    DivisionIndex index;
    PoolIndex number;
    const event::Division& division;
    const event::PoolState& pool;
    std::optional<event::Standing> how;  ///< once anything was played

    View(const TournamentState& s, DivisionIndex d, PoolIndex p)
        : state{s}, index{d}, number{p}, division{s.divisions[d]}, pool{division.pools[p]} {
        auto found = event::standing(s, d, p);
        auto* standing = std::get_if<event::Standing>(&found);
        if (standing == nullptr) return;
        const auto& records = standing->table.records;
        const auto played = [](const standings::Record& record) { return record.played != 0; };
        if (std::any_of(records.begin(), records.end(), played)) how = std::move(*standing);
    }
    [[nodiscard]] const std::string& name(std::size_t team) const {
        return state.teams[pool.teams[team]].name;
    }
    [[nodiscard]] std::string place_of(std::size_t team) const {
        if (!how) return {};
        for (const standings::Place& place : how->table.places)
            if (std::find(place.teams.begin(), place.teams.end(), team) != place.teams.end())
                return place.teams.size() == 1 ? fmt::format("{}", place.number)
                                               : fmt::format("{}-{}", place.number,
                                                             place.number + place.teams.size() - 1);
        const auto& unplayed = how->unplayed;
        return std::find(unplayed.begin(), unplayed.end(), team) != unplayed.end() ? "-" : "left";
    }
};

/// A match of two teams of the pool, and whether the first of them is its second side.
struct Meeting {
    event::MatchRef ref;
    bool turned = false;
};

/// Of two legs the one in which `one` is the first side: its second leg stands in the other's row.
std::optional<Meeting> meeting(const View& view, std::size_t one, std::size_t other) {
    std::optional<Meeting> turned;
    for (const event::MatchIndex m : view.division.graph.pools[view.number].matches) {
        const event::MatchRef ref{view.index, m};
        const event::Side first = view.state.side(ref, 0);
        const event::Side second = view.state.side(ref, 1);
        if (!first.is_team() || !second.is_team()) continue;
        if (first.team == view.pool.teams[one] && second.team == view.pool.teams[other])
            return Meeting{ref, false};
        if (first.team == view.pool.teams[other] && second.team == view.pool.teams[one])
            turned = Meeting{ref, true};
    }
    return turned;
}

void draw_meeting(Paper& paper, const View& view, const Box& cell, const Meeting& met) {
    const event::MatchState& match = view.state.match(met.ref);
    const Box upper{cell.x, cell.y + 1, cell.width, cell.height * 0.5};
    const Box lower{cell.x, cell.y + cell.height * 0.55, cell.width, cell.height * 0.35};
    const std::string& name = view.state.node(met.ref).name;
    if (!match.result || !match.result_counts) {
        const bool days =
            view.state.opened && view.state.opened->first_day != view.state.opened->last_day;
        paper.write(upper, name, {8, false, Align::centre, 0.4});
        paper.write(lower, place_words(match, days), {5.5, false, Align::centre, 0.4});
        return;
    }
    const SetCount sets = sets_won(*match.result);
    const bool nobody = match.result->award == event::Award::double_default;
    const unsigned own = met.turned ? sets.second : sets.first;
    const unsigned others = met.turned ? sets.first : sets.second;
    paper.write(upper, nobody ? "default" : fmt::format("{}-{}", own, others),
                {11, own > others, Align::centre});
    const std::string under =
        match.result->award ? origin_words(*match.result) : points_words(*match.result, met.turned);
    // Three sets in a wide cell can be read at arm's length.
    paper.write(lower, under, {cell.width >= 28 ? 7.0 : 5.5, false, Align::centre});
}

/// Rows and columns of one page, and where they stand.
struct Tile {
    std::size_t first_row = 0;
    std::size_t rows = 0;
    std::size_t first_column = 0;
    std::size_t columns = 0;
    bool last_columns = false;
    Box room;

    [[nodiscard]] double cell_width() const {
        const double taken =
            number_width + name_width + (last_columns ? sum_width * (std::size(sums) + 1) : 0);
        return std::min(34.0, (room.width - taken) / static_cast<double>(columns));
    }
    [[nodiscard]] double y(std::size_t row) const {
        return room.y + head_height + static_cast<double>(row - first_row) * row_height;
    }
    [[nodiscard]] double x(std::size_t column) const {
        return room.x + number_width + name_width +
               static_cast<double>(column - first_column) * cell_width();
    }
    [[nodiscard]] double height() const {
        return head_height + static_cast<double>(rows) * row_height;
    }
};

void draw_titles(Paper& paper, const View& view, const Tile& tile) {
    paper.fill({tile.room.x, tile.room.y,
                tile.x(tile.first_column + tile.columns) - tile.room.x +
                    (tile.last_columns ? sum_width * 4 : 0),
                head_height},
               0.9);
    paper.write({tile.room.x + number_width + 1, tile.room.y, name_width - 2, head_height}, "team",
                {8, true});
    for (std::size_t c = tile.first_column; c < tile.first_column + tile.columns; ++c)
        paper.write({tile.x(c) + 0.5, tile.room.y, tile.cell_width() - 1, head_height},
                    fmt::format("{} {}", c + 1, view.name(c)), {7, true, Align::centre});
    if (!tile.last_columns) return;
    double x = tile.x(tile.first_column + tile.columns);
    for (const Sum& sum : sums) {
        paper.write({x, tile.room.y, sum_width, head_height}, sum.title, {8, true, Align::centre});
        x += sum_width;
    }
    paper.write({x, tile.room.y, sum_width, head_height}, "place", {8, true, Align::centre});
}

void draw_row(Paper& paper, const View& view, const Tile& tile, std::size_t row) {
    const double y = tile.y(row);
    paper.write({tile.room.x, y, number_width, row_height}, fmt::format("{}", row + 1),
                {9, true, Align::centre});
    paper.write({tile.room.x + number_width + 1, y, name_width - 2, row_height}, view.name(row),
                {10, true});
    for (std::size_t c = tile.first_column; c < tile.first_column + tile.columns; ++c) {
        const Box cell{tile.x(c), y, tile.cell_width(), row_height};
        if (c == row)
            paper.fill(cell, 0.8);
        else if (const auto met = meeting(view, row, c))
            draw_meeting(paper, view, cell, *met);
    }
    if (!tile.last_columns || !view.how) return;
    double x = tile.x(tile.first_column + tile.columns);
    for (const Sum& sum : sums) {
        paper.write({x, y, sum_width, row_height}, sum.of(view.how->table.records[row]),
                    {9, false, Align::centre});
        x += sum_width;
    }
    paper.write({x, y, sum_width, row_height}, view.place_of(row), {12, true, Align::centre});
}

void draw_lines(Paper& paper, const Tile& tile) {
    const double right = tile.x(tile.first_column + tile.columns) +
                         (tile.last_columns ? sum_width * (std::size(sums) + 1) : 0);
    for (std::size_t r = 0; r <= tile.rows; ++r) {
        const double y = tile.y(tile.first_row + r);
        paper.line(tile.room.x, y, right, y);
    }
    const double bottom = tile.room.y + tile.height();
    for (std::size_t c = 0; c <= tile.columns; ++c) {
        const double x = tile.x(tile.first_column + c);
        paper.line(x, tile.room.y, x, bottom);
    }
    paper.line(tile.room.x + number_width, tile.room.y, tile.room.x + number_width, bottom);
    paper.frame({tile.room.x, tile.room.y, right - tile.room.x, tile.height()}, 0.4);
}

void draw_tile(Paper& paper, const View& view, const Tile& tile) {
    draw_titles(paper, view, tile);
    for (std::size_t row = tile.first_row; row < tile.first_row + tile.rows; ++row)
        draw_row(paper, view, tile, row);
    draw_lines(paper, tile);
}

std::string title_of(const View& view) {
    return fmt::format("{}, pool {}", division_words(view.division), view.pool.name);
}

/// A place of the order with its reasons, a line each.
struct PlaceWords {
    std::string number;
    std::string names;
    std::string why;
    double height = 0;
};

constexpr double reason_indent = number_width + name_width + 2;
constexpr Style reason_style{8};

std::vector<PlaceWords> order_of(Paper& paper, const View& view) {
    std::vector<PlaceWords> order;
    const auto& places = view.how->table.places;
    for (std::size_t p = 0; p < places.size(); ++p) {
        const standings::Place& place = places[p];
        PlaceWords words;
        words.number = fmt::format("{}.", place.number);
        for (const std::string& why :
             event::reasons(view.state, view.index, view.number, *view.how, p))
            words.why += (words.why.empty() ? "" : "\n") + why;
        for (const standings::TeamIndex team : place.teams)
            words.names += (words.names.empty() ? "" : ", ") + view.name(team);
        const Box room{0, 0, paper.room().width - reason_indent, 0};
        const double lines = paper.write_lines(room, words.why, reason_style, true);
        words.height = std::max(5.5, lines + 1.5);
        order.push_back(std::move(words));
    }
    return order;
}

/// The order in words, below the table, or on a page of its own where it does not fit there whole.
/// Answers where it ends.
double draw_order(Paper& paper, const View& view, double y) {
    if (!view.how) return y;
    const auto begin = [&] {
        paper.turn_to(title_of(view) + ": order", Paper::Turn::across);
        y = paper.room().y;
    };
    const auto fits = [&](double height) {
        return y + height <= paper.room().y + paper.room().height;
    };
    const std::vector<PlaceWords> order = order_of(paper, view);
    double all = 0;
    for (const PlaceWords& place : order) all += place.height;
    if (!fits(all) && all <= paper.room().height) begin();
    for (const PlaceWords& place : order) {
        if (!fits(place.height)) begin();
        const double x = paper.room().x;
        paper.write({x, y, number_width, 4.5}, place.number, {9, true, Align::right});
        paper.write({x + number_width + 1, y, name_width, 4.5}, place.names, {9, true});
        paper.write_lines({x + reason_indent, y, paper.room().width - reason_indent, 0}, place.why,
                          reason_style);
        y += place.height;
    }
    return y + 3;
}

}  // namespace

void draw_cross_table(Paper& paper, const TournamentState& state, DivisionIndex division,
                      PoolIndex pool) {
    const View view{state, division, pool};
    const std::size_t teams = view.pool.teams.size();
    double below = 0;
    for (std::size_t row = 0; row < std::max<std::size_t>(teams, 1); row += most_rows)
        for (std::size_t column = 0; column < std::max<std::size_t>(teams, 1);
             column += most_columns) {
            paper.turn_to(title_of(view), Paper::Turn::across);
            if (teams == 0) {
                paper.write(Box{paper.room().x, paper.room().y, 100, 8}, "no team yet", {9});
                return;
            }
            Tile tile{row,
                      std::min(most_rows, teams - row),
                      column,
                      std::min(most_columns, teams - column),
                      column + most_columns >= teams,
                      paper.room()};
            draw_tile(paper, view, tile);
            below = tile.room.y + tile.height() + 5;
        }
    below = draw_order(paper, view, below);
    draw_pool_play(paper, state, division, pool, title_of(view), below);
}

}  // namespace courthand::server::papers
