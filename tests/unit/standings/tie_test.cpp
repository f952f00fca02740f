// Teams that stay level: restart or go on, decisions, play-offs, what cannot be known.
#include "pools.h"

namespace courthand::standings {
namespace {

/// Three teams that beat each other in a circle with the same scores.
Pool perfect_circle() {
    return pool_of({"A", "B", "C"}, {"A-B 25-20 25-20", "B-C 25-20 25-20", "C-A 25-20 25-20"});
}

TEST(Tie, AChainThatNeverSeparatesNeedsADecisionAndInventsNoOrder) {
    for (const std::string& id : chain_ids()) {
        const Chain c = chain(id);
        const Pool pool = perfect_circle();
        const Table table = ranked(c, pool);
        ASSERT_EQ(table.places.size(), 1U) << id;
        EXPECT_TRUE(table.places[0].needs_decision()) << id;
        EXPECT_FALSE(table.decided()) << id;
        EXPECT_EQ(table.places[0].open, Open::chain_ended) << id;
        EXPECT_EQ(table.places[0].decider, c.last_resort) << id;
        EXPECT_FALSE(table.team_at(1)) << id;
    }
}

TEST(Tie, ReasonsSayWhoDecides) {
    const std::string words = reasons_of(chain("international-schools"), perfect_circle(), 0);
    EXPECT_NE(words.find("needs a decision: A, B, C are level in every step; by lot"),
              std::string::npos)
        << words;
}

TEST(Tie, ADecisionGivesThePlaces) {
    Pool pool = perfect_circle();
    pool.decisions.push_back({{2, 0, 1}, Decider::lot, "drawn by the captain of B"});
    const Chain c = chain("international-2017");
    const Table table = ranked(c, pool);
    EXPECT_EQ(order_of(pool, table), "C A B");
    EXPECT_TRUE(table.decided());
    EXPECT_EQ(table.places[0].decision, 0U);
    EXPECT_NE(reasons_of(c, pool, 0).find("decided by lot: C, A, B; drawn by the captain of B"),
              std::string::npos);
}

TEST(Tie, ADecisionOnTeamsThatTheChainSeparatesIsNotUsed) {
    Pool pool = pool_of({"A", "B", "C"}, {"A-B 25-20 25-20", "B-C 25-20 25-20", "A-C 25-20 25-20"});
    pool.decisions.push_back({{1, 0}, Decider::director, ""});
    const Table table = ranked(chain("international-2017"), pool);
    EXPECT_EQ(order_of(pool, table), "A B C");
    EXPECT_EQ(table.unused_decisions, std::vector<std::size_t>{0});
}

TEST(Tie, TheLastDecisionOnTheSameTeamsStands) {
    Pool pool = perfect_circle();
    pool.decisions.push_back({{2, 0, 1}, Decider::lot, ""});
    pool.decisions.push_back({{0, 1, 2}, Decider::director, ""});
    const Table table = ranked(chain("international-2017"), pool);
    EXPECT_EQ(order_of(pool, table), "A B C");
    EXPECT_EQ(table.unused_decisions, std::vector<std::size_t>{0});
}

TEST(Tie, APlayOffIsAskedForOnlyWhereAPlaceMatters) {
    Pool pool = perfect_circle();
    // All level in sets too, points differ: C won more clearly.
    pool.results[2] = result_in_points(2, 0, {{25, 5}, {25, 5}}, 3);
    const Chain c = chain("us-junior-national");
    EXPECT_EQ(order_of(pool, ranked(c, pool)), "C B A");
    pool.cuts = {2};
    const Table table = ranked(c, pool);
    EXPECT_EQ(order_of(pool, table), "(A B C)");
    EXPECT_EQ(table.places[0].open, Open::place_matters);
    EXPECT_EQ(table.places[0].decider, Decider::play_off);
}

TEST(Tie, TwoLeftOfThreeAreDecidedByTheirMatch) {
    // A, B and C beat each other in a circle 2-0; against D only A lost no set, so that A is placed
    // by sets. B beat C, though C has the better points.
    const Pool pool = pool_of({"C", "B", "A", "D"},
                              {"A-B 25-20 25-20", "B-C 25-23 25-23", "C-A 25-10 25-10",
                               "A-D 25-20 25-20", "B-D 25-20 20-25 15-13", "C-D 25-2 20-25 15-3"});
    EXPECT_EQ(order_under("us-junior-national", pool), "A B C D");
    EXPECT_EQ(order_under("us-regional-adult", pool), "A B C D");
}

TEST(Tie, ThreeLevelInSetsAreDecidedByPointsAtOnce) {
    const Pool pool = pool_of({"C", "B", "A"}, {"B-A 25-23 20-25 15-13", "C-B 25-20 20-25 15-13",
                                                "A-C 25-10 20-25 15-13"});
    // Each 3 of 6 sets. Points: A 121 of 229, B 118 of 239, C 108 of 226.
    EXPECT_EQ(order_under("us-junior-national", pool), "A B C");
}

TEST(Tie, ATeamThatBeatAllThatAreLevelGoesTop) {
    // A, B and C are 2-2. A beat B and C; of the two left B beat C. C has the best sets.
    const Pool pool =
        pool_of({"C", "B", "A", "D", "E"},
                {"A-B 25-23 20-25 15-13", "A-C 25-23 20-25 15-13", "D-A 25-2 25-2", "E-A 25-2 25-2",
                 "B-C 25-20 20-25 15-13", "B-D 25-20 20-25 15-13", "E-B 25-20 25-20",
                 "C-D 25-20 25-20", "C-E 25-20 25-20", "E-D 25-20 25-20"});
    EXPECT_EQ(order_under("us-junior-national", pool), "E A B C D");
    EXPECT_NE(reasons_of(chain("us-junior-national"), pool, 1)
                  .find("beat all others that are level, matches between them: A yes"),
              std::string::npos);
}

TEST(Tie, GoingOnAndStartingAgainDiffer) {
    // A circle of best of five: mutual set differences A -1, B -1, C +2. A beat B, but B is well
    // ahead in the points of all three.
    const Pool pool = pool_of(
        {"A", "B", "C"},
        {"A-B 25-23 25-23 20-25 25-23", "B-C 25-5 25-5 20-25 20-25 15-5", "C-A 25-23 25-23 25-23"});
    Chain c = chain("international-schools");
    EXPECT_EQ(order_of(pool, ranked(c, pool)), "C B A");
    c.mutual_among = MutualAmong::still_tied;
    EXPECT_EQ(order_of(pool, ranked(c, pool)), "C A B");
    c.after_split = AfterSplit::restart;
    EXPECT_EQ(order_of(pool, ranked(c, pool)), "C A B");
}

TEST(Tie, ScoresThatAreMissingStopTheChain) {
    const Pool pool = pool_of({"A", "B", "C"}, {"A-B 2-1", "B-C 2-1", "C-A 2-1"}, true);
    const Chain c = chain("international-2017");
    const Table table = ranked(c, pool);
    ASSERT_EQ(table.places.size(), 1U);
    EXPECT_EQ(table.places[0].open, Open::scores_missing);
    EXPECT_NE(reasons_of(c, pool, 0).find("the scores for the point quotient are not known"),
              std::string::npos);
}

TEST(Tie, AForfeitCostsWhatTheChainSays) {
    Pool pool = pool_of({"A", "B"}, {"A-B 25-0 25-0"});
    pool.results[0].ending = Ending::forfeit_by_second;
    EXPECT_EQ(ranked(chain("best-of-three-league"), pool).records[1].match_points, -1);
    EXPECT_EQ(ranked(chain("best-of-three-league"), pool).records[0].match_points, 3);
    EXPECT_EQ(ranked(chain("international-2017"), pool).records[1].match_points, 0);
}

TEST(Tie, ADoubleForfeitIsLostByBoth) {
    Pool pool = pool_of({"A", "B", "C"}, {"A-C 25-0 25-0", "B-C 25-0 25-0"});
    Result none = result_in_sets(0, 1, 0, 0, 9);
    none.ending = Ending::forfeit_by_both;
    none.detail = Detail::points;
    pool.results.push_back(none);
    const Table table = ranked(chain("international-2017"), pool);
    EXPECT_EQ(table.records[0].lost, 1);
    EXPECT_EQ(table.records[1].lost, 1);
    EXPECT_EQ(order_of(pool, table), "(A B) C");
}

TEST(Tie, ResultsOfATeamThatWithdrewAreStruckOrKept) {
    // D beat A and withdrew: struck, A is first; kept, B is.
    Pool pool =
        pool_of({"A", "B", "C", "D"}, {"A-B 25-20 25-20", "B-C 25-20 25-20", "A-C 25-20 25-20",
                                       "D-A 25-5 25-5", "B-D 25-5 25-5"});
    const Chain c = chain("international-2017");
    pool.withdrawals = {{3, Withdrawal::Results::struck}};
    Table table = ranked(c, pool);
    EXPECT_EQ(order_of(pool, table), "A B C");
    EXPECT_EQ(table.withdrawn, std::vector<TeamIndex>{3});
    EXPECT_EQ(table.records[0].played, 2);
    pool.withdrawals[0].results = Withdrawal::Results::kept;
    table = ranked(c, pool);
    EXPECT_EQ(order_of(pool, table), "B A C");
    EXPECT_EQ(table.records[0].played, 3);
}

}  // namespace
}  // namespace courthand::standings
