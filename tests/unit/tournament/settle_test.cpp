// What a source stands for, and why it is open.
#include "played.h"

namespace courthand::tournament {
namespace {

std::string settled(const Graph& g, const Outcomes& outcomes, const Source& source) {
    Graph graph = g;
    const SourceIndex index = graph.add(source);
    const Settled s = settle(graph, outcomes)[index];
    if (s.state == Settled::State::bye) return "bye";
    return s.known() ? "team " + std::to_string(s.team) : s.why;
}

TEST(Settle, NothingAdvancesButFromAResult) {
    const Graph g = bracket(add_single_elimination, 4);
    Outcomes o;
    EXPECT_EQ(settled(g, o, {Source::Kind::winner, 0, 0}), "M1 has no confirmed result");
    EXPECT_EQ(settled(g, o, {Source::Kind::winner, 2, 0}), "M3 waits: M1 has no confirmed result");
    o.matches = {Winner::second, Winner::unknown, Winner::unknown};
    EXPECT_EQ(settled(g, o, {Source::Kind::winner, 0, 0}), "team 4");
    EXPECT_EQ(settled(g, o, {Source::Kind::loser, 0, 0}), "team 1");
    EXPECT_EQ(settled(g, o, {Source::Kind::winner, 2, 0}), "M3 waits: M2 has no confirmed result");
}

TEST(Settle, PlacesOfPools) {
    Field f = field_of(4);
    EXPECT_TRUE(add_pool(f.graph, "A", f.entrants, "A").empty());
    Outcomes o;
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::place, 0, 2}), "place 2 of pool A is not decided");
    o.pools = {{3, 0, 0, 1}};
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::place, 0, 1}), "team 3");
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::place, 0, 2}), "place 2 of pool A is not decided");
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::place, 0, 4}), "team 1");
}

TEST(Settle, BetterAndWorseOfTwoSources) {
    Field f = field_of(3);
    const SourceIndex bye = f.graph.add({Source::Kind::bye, 0, 0});
    Outcomes o;
    const Source better{Source::Kind::better, f.entrants[1], f.entrants[2]};
    const Source worse{Source::Kind::worse, f.entrants[1], f.entrants[2]};
    EXPECT_EQ(settled(f.graph, o, better), "teams 2 and 3 have no rating to compare");
    o.rating = {7, 5, 5};
    EXPECT_EQ(settled(f.graph, o, better), "teams 2 and 3 are rated equal");
    o.rating = {7, 5, 2};
    EXPECT_EQ(settled(f.graph, o, better), "team 3");
    EXPECT_EQ(settled(f.graph, o, worse), "team 2");
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::better, f.entrants[0], bye}), "team 1");
    EXPECT_EQ(settled(f.graph, o, {Source::Kind::worse, f.entrants[0], bye}), "bye");
}

TEST(Settle, NobodyPlaysAgainstABye) {
    Field f = field_of(2);
    const SourceIndex bye = f.graph.add({Source::Kind::bye, 0, 0});
    Match m;
    m.name = "M1";
    m.sides = {bye, f.entrants[1]};
    f.graph.matches.push_back(m);
    EXPECT_EQ(settled(f.graph, {}, {Source::Kind::winner, 0, 0}), "team 2");
    EXPECT_EQ(settled(f.graph, {}, {Source::Kind::loser, 0, 0}), "bye");
    Outcomes o;
    o.matches = {Winner::second};
    const Faults faults = faults_of(f.graph, o);
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(faults[0].message, "a result against a bye");
}

TEST(Settle, AResultForAMatchWhoseSidesAreNotKnownIsRefused) {
    const Graph g = bracket(add_single_elimination, 4);
    Outcomes o;
    o.matches = {Winner::first, Winner::unknown, Winner::second};
    const Faults faults = faults_of(g, o);
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(faults[0].place, "M3");
    EXPECT_EQ(faults[0].message,
              "a result, but winner of M2 is not known: M2 has no confirmed result");
    EXPECT_FALSE(faults[0].cure.empty());
}

TEST(Settle, TheSecondFinalIsPlayedOnlyIfTheUnbeatenTeamLost) {
    BracketOptions options;
    options.second_final = true;
    const Graph g = bracket(add_double_elimination, 2, options);
    ASSERT_EQ(g.matches.size(), 3U);
    Outcomes o;
    o.matches = {Winner::first, Winner::first};
    const auto champion = [&] {
        const Settled s = settle(g, o)[g.places[0].source];
        return s.known() ? "team " + std::to_string(s.team) : s.why;
    };
    EXPECT_EQ(champion(), "team 1");
    o.matches = {Winner::first, Winner::second};
    EXPECT_EQ(champion(), "M3 has no confirmed result");
    o.matches = {Winner::first, Winner::second, Winner::second};
    EXPECT_EQ(champion(), "team 1");
    o.matches = {Winner::first, Winner::first, Winner::second};
    EXPECT_EQ(faults_of(g, o)[0].message,
              "a result, but it is played only if the second side of M2 wins");
    o.matches = {Winner::first};
    EXPECT_EQ(champion(), "whether M3 is played hangs on M2");
}

}  // namespace
}  // namespace courthand::tournament
