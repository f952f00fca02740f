// Where the matches of a bracket are drawn: every kind and every number of entrants.
#include "bracket/bracket_layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "courthand/tournament/brackets.h"

namespace courthand::seats {
namespace {

using tournament::Graph;
using tournament::Source;

enum class Kind { single, double_, consolation, placement };

Graph graph_of(Kind kind, tournament::TeamNumber teams) {
    tournament::Field field = tournament::field_of(teams);
    tournament::BracketOptions options;
    options.third_place = kind == Kind::single && teams >= 4;
    options.second_final = kind == Kind::double_;
    tournament::Faults faults;
    switch (kind) {
        case Kind::single:
            faults = add_single_elimination(field.graph, field.entrants, options);
            break;
        case Kind::double_:
            faults = add_double_elimination(field.graph, field.entrants, options);
            break;
        case Kind::consolation:
            faults = add_consolation(field.graph, field.entrants, options);
            break;
        case Kind::placement:
            faults = add_placement(field.graph, field.entrants, options);
            break;
    }
    EXPECT_TRUE(faults.empty()) << faults.front().message;
    return field.graph;
}

std::map<tournament::MatchIndex, BracketBox> by_match(const BracketLayout& layout) {
    std::map<tournament::MatchIndex, BracketBox> boxes;
    for (const BracketBox& box : layout.boxes) boxes[box.match] = box;
    return boxes;
}

class Drawn : public ::testing::TestWithParam<Kind> {};

TEST_P(Drawn, EveryMatchStandsOnceAndNoneOverAnother) {
    for (tournament::TeamNumber teams = 2; teams <= 64; ++teams) {
        const Graph graph = graph_of(GetParam(), teams);
        const BracketLayout layout = layout_of(graph);
        EXPECT_EQ(by_match(layout).size(), graph.matches.size()) << teams;
        EXPECT_EQ(layout.boxes.size(), graph.matches.size()) << teams;
        std::map<int, std::vector<double>> columns;
        for (const BracketBox& box : layout.boxes) {
            EXPECT_LT(box.column, layout.columns);
            EXPECT_GE(box.row, 0.5);
            EXPECT_LE(box.row, layout.rows - 0.5 + 1e-9);
            for (const double row : columns[box.column])
                EXPECT_GE(std::abs(row - box.row), 1 - 1e-9) << teams << ", column " << box.column;
            columns[box.column].push_back(box.row);
        }
    }
}

TEST_P(Drawn, AMatchStandsRightOfThoseThatItWaitsForAndIsReachedByKey) {
    for (const int count : {2, 5, 8, 13, 24, 64}) {
        const auto teams = static_cast<tournament::TeamNumber>(count);
        const Graph graph = graph_of(GetParam(), teams);
        const BracketLayout layout = layout_of(graph);
        auto boxes = by_match(layout);
        for (std::size_t m = 0; m < graph.matches.size(); ++m)
            for (const auto side : graph.matches[m].sides) {
                const Source& source = graph.sources[side];
                if (source.kind != Source::Kind::winner && source.kind != Source::Kind::loser)
                    continue;
                EXPECT_LT(boxes[static_cast<tournament::MatchIndex>(source.of)].column,
                          boxes[static_cast<tournament::MatchIndex>(m)].column);
            }
        // From the first box, by steps in all directions, every other one.
        std::vector<bool> reached(layout.boxes.size(), false);
        std::vector<std::size_t> open{0};
        reached[0] = true;
        while (!open.empty()) {
            const std::size_t at = open.back();
            open.pop_back();
            for (const Step step : {Step::left, Step::right, Step::up, Step::down}) {
                const auto next = beside(layout, at, step);
                if (!next || reached[*next]) continue;
                reached[*next] = true;
                open.push_back(*next);
            }
        }
        EXPECT_EQ(std::count(reached.begin(), reached.end(), true),
                  static_cast<std::ptrdiff_t>(layout.boxes.size()))
            << teams;
    }
}

INSTANTIATE_TEST_SUITE_P(Brackets, Drawn,
                         ::testing::Values(Kind::single, Kind::double_, Kind::consolation,
                                           Kind::placement));

TEST(BracketLayout, ALineForEachWinnerWhoGoesOn) {
    const BracketLayout layout = layout_of(graph_of(Kind::single, 8));
    ASSERT_EQ(layout.boxes.size(), 8u);
    EXPECT_EQ(layout.lines.size(), 6u);
    EXPECT_EQ(layout.columns, 3);
    for (const BracketLine& line : layout.lines)
        EXPECT_EQ(layout.boxes[line.from].column + 1, layout.boxes[line.to].column);
}

TEST(BracketLayout, TreesStandBelowEachOtherTheBestPlacesFirst) {
    const BracketLayout layout = layout_of(graph_of(Kind::placement, 8));
    ASSERT_EQ(layout.trees.size(), 4u);
    const std::vector<std::uint16_t> first{1, 3, 5, 7};
    for (std::size_t i = 0; i < first.size(); ++i) {
        EXPECT_EQ(layout.trees[i].first, first[i]);
        EXPECT_EQ(layout.trees[i].last, first[i] + 1);
        if (i == 0) continue;
        EXPECT_GT(layout.trees[i].row, layout.trees[i - 1].row);
    }
}

TEST(BracketLayout, MatchesOfPoolsAreNotDrawn) {
    tournament::Field field = tournament::field_of(4);
    EXPECT_TRUE(add_pool(field.graph, "A", field.entrants, "A").empty());
    EXPECT_EQ(layout_of(field.graph), BracketLayout{});
}

}  // namespace
}  // namespace courthand::seats
