// Pools that cannot be ranked: each fault is a value with its place and cure.
#include "pools.h"

namespace courthand::standings {
namespace {

std::string fault_of(const Pool& pool, std::string_view id = "international-2017") {
    const Faults faults = faults_of(chain(id), pool);
    if (faults.empty()) return "none";
    EXPECT_FALSE(faults[0].cure.empty());
    EXPECT_FALSE(faults[0].place.empty());
    auto answer = rank(chain(id), pool);
    EXPECT_TRUE(std::holds_alternative<Faults>(answer));
    return faults[0].message;
}

Pool two() {
    return pool_of({"Mill Lane", "Quayside"}, {});
}

TEST(PoolFault, APoolOfOne) {
    EXPECT_EQ(fault_of(pool_of({"Mill Lane"}, {})), "a pool of one has no match");
    EXPECT_EQ(fault_of(pool_of({}, {})), "a pool of none has no match");
}

TEST(PoolFault, TooManyTeams) {
    std::vector<std::string> teams;
    for (int i = 0; i < 33; ++i) teams.push_back("T" + std::to_string(i));
    EXPECT_EQ(fault_of(pool_of(teams, {})), "33 teams; a pool has 32 at most");
}

TEST(PoolFault, TwoTeamsOfOneName) {
    EXPECT_EQ(fault_of(pool_of({"Gulls", "Gulls"}, {})), "two teams are called \"Gulls\"");
}

TEST(PoolFault, ATeamAgainstItself) {
    Pool pool = two();
    pool.results.push_back(result_in_sets(0, 0, 3, 0));
    EXPECT_EQ(fault_of(pool), "a team plays against itself");
    pool.results[0].second = 7;
    EXPECT_EQ(fault_of(pool), "a team that is not in the pool");
}

TEST(PoolFault, AnImpossibleScore) {
    Pool pool = two();
    pool.results.push_back(result_in_points(0, 1, {{25, 25}, {25, 3}, {25, 4}}));
    EXPECT_EQ(fault_of(pool), "set 1 is level at 25-25");
    pool.results[0] = result_in_points(0, 1, std::vector<SetScore>(7, {25, 20}));
    EXPECT_EQ(fault_of(pool), "7 sets; a match has 5 at most");
    pool.results[0] = result_in_sets(0, 1, 0, 0);
    EXPECT_EQ(fault_of(pool), "no set was played");
}

TEST(PoolFault, AResultThatTheChainDoesNotValue) {
    Pool pool = two();
    pool.results.push_back(result_in_sets(0, 1, 3, 1));
    EXPECT_EQ(fault_of(pool, "best-of-three-league"),
              "best-of-three-league gives no match points for 3-1");
    EXPECT_EQ(fault_of(pool, "us-junior-national"), "none");
}

TEST(PoolFault, OneMatchTwice) {
    Pool pool = two();
    pool.results = {result_in_sets(0, 1, 3, 1, 4), result_in_sets(1, 0, 3, 1, 4)};
    EXPECT_EQ(fault_of(pool), "two results of Mill Lane - Quayside with the same place in time");
    pool.results[1].order = 5;
    EXPECT_EQ(fault_of(pool), "none");
}

TEST(PoolFault, DecisionsAndCuts) {
    Pool pool = two();
    pool.decisions = {{{0}, Decider::lot, ""}};
    EXPECT_EQ(fault_of(pool), "a decision orders fewer than two teams");
    pool.decisions = {{{0, 0}, Decider::lot, ""}};
    EXPECT_EQ(fault_of(pool), "a decision names Mill Lane twice");
    pool.decisions = {{{0, 9}, Decider::lot, ""}};
    EXPECT_EQ(fault_of(pool), "a decision names a team that is not in the pool");
    pool.decisions.clear();
    pool.cuts = {2};
    EXPECT_EQ(fault_of(pool), "place 2 cannot be the last that goes on");
    pool.cuts.clear();
    pool.withdrawals = {{4}};
    EXPECT_EQ(fault_of(pool), "a team that is not in the pool is withdrawn");
}

}  // namespace
}  // namespace courthand::standings
