// Graphs that cannot be played: each fault is told.
#include "played.h"

namespace courthand::tournament {
namespace {

std::string fault_of(const Graph& graph) {
    const Faults faults = faults_of(graph);
    if (faults.empty()) return "none";
    EXPECT_FALSE(faults[0].cure.empty());
    return faults[0].place + ": " + faults[0].message;
}

TEST(GraphFault, ACircle) {
    Graph g = bracket(add_single_elimination, 4);
    g.matches[0].sides[1] = g.matches[2].sides[0];  // the winner of M1 plays in M1
    EXPECT_EQ(fault_of(g), "M1: waits for its own result");
}

TEST(GraphFault, ATeamInTwoMatchesAtOnce) {
    Graph g = bracket(add_single_elimination, 4);
    g.matches[1].sides[1] = g.matches[0].sides[0];
    EXPECT_EQ(fault_of(g), "team 1: has 2 ways on");
}

TEST(GraphFault, TheLoserWithTwoWaysOn) {
    BracketOptions options;
    options.third_place = true;
    Graph g = bracket(add_single_elimination, 4, options);
    Match m = g.matches[2];
    m.name = "M9";
    g.matches.push_back(m);
    EXPECT_EQ(fault_of(g), "loser of M1: has 2 ways on");
}

TEST(GraphFault, IndicesThatLeadNowhere) {
    Graph g = bracket(add_single_elimination, 4);
    Graph other = g;
    other.sources.push_back({Source::Kind::winner, 99, 0});
    EXPECT_EQ(fault_of(other).substr(0, 7), "source ");
    other = g;
    other.sources.push_back({Source::Kind::team, 5, 0});
    EXPECT_NE(fault_of(other), "none");
    other = g;
    other.sources.push_back({Source::Kind::place, 0, 1});
    EXPECT_NE(fault_of(other), "none");
    other = g;
    other.matches[0].sides[0] = 999;
    EXPECT_EQ(fault_of(other), "M1: a side, pool or condition that is not there");
    other = g;
    other.places.push_back({0, 0, 0});
    EXPECT_EQ(fault_of(other), "place 0: leads nowhere");
    EXPECT_EQ(fault_of(g), "none");
}

TEST(GraphFault, TwoMatchesOfOneName) {
    Graph g = bracket(add_single_elimination, 4);
    g.matches[1].name = "M1";
    EXPECT_EQ(fault_of(g), "M1: two matches of this name");
}

TEST(GraphFault, TooManyMatches) {
    Graph g;
    g.matches.resize(Graph::most_matches + 1);
    EXPECT_EQ(fault_of(g), "graph: 4097 matches; 4096 at most");
}

}  // namespace
}  // namespace courthand::tournament
