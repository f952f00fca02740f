// What a reopened result takes with it.
#include "played.h"

namespace courthand::tournament {
namespace {

std::string names(const Graph& g, const std::vector<MatchIndex>& matches) {
    std::string all;
    for (const MatchIndex m : matches) all += (all.empty() ? "" : " ") + g.matches[m].name;
    return all;
}

TEST(Effects, OfAPoolMatchReachThePoolTheBracketItsDutiesAndPlaces) {
    Field f = field_of(8);
    const std::vector<SourceIndex> a(f.entrants.begin(), f.entrants.begin() + 4);
    const std::vector<SourceIndex> b(f.entrants.begin() + 4, f.entrants.end());
    EXPECT_TRUE(add_pool(f.graph, "A", a, "A").empty());
    EXPECT_TRUE(add_pool(f.graph, "B", b, "B").empty());
    const auto entrants = std::get<std::vector<SourceIndex>>(crossed(f.graph, {0, 1}, 2));
    const auto first = static_cast<MatchIndex>(f.graph.matches.size());
    EXPECT_TRUE(add_single_elimination(f.graph, entrants).empty());
    assign_workers(f.graph, first);
    const Effects e = effects_of(f.graph, match_called(f.graph, "A2"));
    EXPECT_EQ(names(f.graph, e.matches), "M1 M2 M3");
    EXPECT_EQ(names(f.graph, e.duties), "M3");
    EXPECT_EQ(e.pools, std::vector<PoolIndex>{0});
    EXPECT_EQ(e.places.size(), f.graph.places.size());
}

TEST(Effects, OfASemifinalAreTheFinalAndThePlacesBelow) {
    BracketOptions options;
    options.third_place = true;
    const Graph g = bracket(add_single_elimination, 8, options);
    const Effects e = effects_of(g, match_called(g, "M5"));
    EXPECT_EQ(names(g, e.matches), "M7 M8");
    EXPECT_TRUE(e.pools.empty());
    EXPECT_EQ(e.places.size(), 4U);
}

TEST(Effects, OfTheFinalAreTheFirstTwoPlaces) {
    const Graph g = bracket(add_single_elimination, 8);
    const Effects e = effects_of(g, match_called(g, "M7"));
    EXPECT_TRUE(e.matches.empty());
    EXPECT_EQ(e.places, (std::vector<std::size_t>{0, 1}));
}

}  // namespace
}  // namespace courthand::tournament
