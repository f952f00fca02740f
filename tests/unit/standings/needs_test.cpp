// What each team still needs.
#include "courthand/standings/needs.h"

#include "pools.h"

namespace courthand::standings {
namespace {

Needs needs(std::string_view id, const Pool& pool, const std::vector<OpenMatch>& open,
            std::uint16_t cut, MatchLength length = {}) {
    auto answer = needs_of(chain(id), pool, open, cut, length, 1);
    if (auto* found = std::get_if<Needs>(&answer)) return *found;
    ADD_FAILURE() << std::get<Faults>(answer)[0].message;
    return {};
}

std::vector<std::string> words(const std::vector<Condition>& conditions, const Pool& pool,
                               const std::vector<OpenMatch>& open, MatchLength length = {}) {
    std::vector<std::string> all;
    for (const Condition& c : conditions) all.push_back(in_words(c, pool, open, length));
    return all;
}

/// A 2-0, B 1-1, C 1-1, D 0-2 in matches; A-D and B-C are open. Two go through.
Pool before_the_last_round() {
    return pool_of({"A", "B", "C", "D"},
                   {"A-B 25-20 25-20", "A-C 25-20 25-20", "B-D 25-20 25-20", "C-D 25-20 25-20"});
}
const std::vector<OpenMatch> last_round{{0, 3, 11}, {1, 2, 12}};

TEST(Needs, NamesWhoIsThroughAndWhoIsOut) {
    const Needs n = needs("us-junior-national", before_the_last_round(), last_round, 2);
    EXPECT_TRUE(n.exact);
    EXPECT_TRUE(n.with_sets);
    EXPECT_EQ(n.courses, 16U);
    EXPECT_EQ(n.error, 0);
    ASSERT_EQ(n.teams.size(), 4U);
    EXPECT_EQ(n.teams[0].fate, Fate::through);
    EXPECT_EQ(n.teams[1].fate, Fate::undecided);
    EXPECT_EQ(n.teams[2].fate, Fate::undecided);
    EXPECT_EQ(n.teams[3].fate, Fate::out);
}

TEST(Needs, TheShortestConditionsComeInWords) {
    const Pool pool = before_the_last_round();
    const Needs n = needs("us-junior-national", pool, last_round, 2);
    EXPECT_EQ(words(n.teams[1].enough, pool, last_round), std::vector<std::string>{"B beats C"});
    EXPECT_EQ(words(n.teams[1].too_bad, pool, last_round), std::vector<std::string>{"C beats B"});
}

TEST(Needs, SetsAreNamedWhereTheyMatter) {
    // C is through. Match points: B 3, D 2, A 1. A passes B with 2-0; after 2-1 all three have 3,
    // one win and sets 3-5, and points that nobody knows yet.
    const Pool pool =
        pool_of({"A", "B", "C", "D"}, {"C-A 25-20 25-20", "C-B 25-20 25-20", "C-D 25-20 25-20",
                                       "B-A 25-20 20-25 15-13", "D-B 20-25 25-20 15-10"});
    const std::vector<OpenMatch> open{{0, 3, 11}};
    const Needs n = needs("international-points-first", pool, open, 2);
    EXPECT_EQ(n.teams[2].fate, Fate::through);
    EXPECT_EQ(words(n.teams[0].enough, pool, open), std::vector<std::string>{"A beats D 2-0"});
    EXPECT_EQ(words(n.teams[0].too_bad, pool, open), std::vector<std::string>{"D beats A"});
    EXPECT_EQ(n.teams[0].hangs, 1U);
    EXPECT_EQ(words(n.teams[1].too_bad, pool, open),
              (std::vector<std::string>{"D beats A", "A beats D 2-0"}));
    EXPECT_TRUE(n.teams[1].enough.empty());
}

TEST(Needs, AgreesWithPlayingEveryCourseByHand) {
    const Pool pool = pool_of({"A", "B", "C", "D"}, {"A-B 25-20 25-20", "C-D 25-20 25-20"});
    const std::vector<OpenMatch> open{{0, 2, 11}, {1, 3, 12}, {0, 3, 13}, {1, 2, 14}};
    const Chain c = chain("us-junior-national");
    const Needs n = needs("us-junior-national", pool, open, 2);
    std::vector<std::uint64_t> through(4, 0);
    for (int course = 0; course < 256; ++course) {
        Pool played = pool;
        for (std::size_t m = 0; m < 4; ++m) {
            const int o = course >> (2 * m) & 3;
            const auto loser = static_cast<std::uint8_t>(o & 1);
            played.results.push_back(
                o < 2 ? result_in_sets(open[m].first, open[m].second, 2, loser, open[m].order)
                      : result_in_sets(open[m].first, open[m].second, loser, 2, open[m].order));
        }
        const Table table = ranked(c, played);
        for (const Place& p : table.places)
            if (p.number + p.teams.size() - 1 <= 2)
                for (const TeamIndex t : p.teams) ++through[t];
    }
    EXPECT_EQ(n.courses, 256U);
    for (std::size_t t = 0; t < 4; ++t) {
        EXPECT_EQ(n.teams[t].through, through[t]);
        EXPECT_EQ(n.teams[t].through + n.teams[t].out + n.teams[t].hangs, 256U);
    }
}

std::vector<OpenMatch> all_of(std::uint16_t teams) {
    std::vector<OpenMatch> open;
    for (TeamIndex a = 0; a < teams; ++a)
        for (TeamIndex b = static_cast<TeamIndex>(a + 1); b < teams; ++b)
            open.push_back({a, b, static_cast<std::uint32_t>(open.size())});
    return open;
}

TEST(Needs, TwelveOpenMatchesArePlayedInFull) {
    std::vector<OpenMatch> open = all_of(6);
    Pool pool = pool_of({"A", "B", "C", "D", "E", "F"}, {});
    for (int i = 0; i < 3; ++i) {
        const OpenMatch m = open.back();
        open.pop_back();
        pool.results.push_back(result_in_sets(m.first, m.second, 2, 0, m.order));
    }
    const Needs n = needs("us-junior-national", pool, open, 2);
    EXPECT_TRUE(n.exact);
    EXPECT_FALSE(n.with_sets);
    EXPECT_EQ(n.courses, 4096U);
    EXPECT_EQ(n.error, 0);
}

TEST(Needs, MoreThanTwelveAreSampledWithTheirError) {
    const Pool pool = pool_of({"A", "B", "C", "D", "E", "F"}, {});
    const std::vector<OpenMatch> open = all_of(6);
    const Needs n = needs("us-junior-national", pool, open, 2);
    EXPECT_FALSE(n.exact);
    EXPECT_EQ(n.courses, Needs::samples);
    EXPECT_GT(n.error, 0);
    EXPECT_LT(n.error, 0.01);
    double all = 0;
    for (const TeamNeeds& t : n.teams) {
        EXPECT_EQ(t.fate, Fate::undecided);
        const auto share = static_cast<double>(t.through) / static_cast<double>(n.courses);
        const auto hangs = static_cast<double>(t.hangs) / static_cast<double>(n.courses);
        // All teams are alike, so a third of the courses puts each of them through.
        EXPECT_LE(share, 1.0 / 3 + n.error);
        EXPECT_GE(share + hangs, 1.0 / 3 - n.error);
        all += share;
    }
    EXPECT_LE(all, 2);
    const Needs again = needs("us-junior-national", pool, open, 2);
    EXPECT_EQ(again.teams[3].through, n.teams[3].through) << "the same seed gives the same courses";
}

TEST(Needs, WrongInputIsTold) {
    const Pool pool = before_the_last_round();
    const auto fault = [&](const std::vector<OpenMatch>& open, std::uint16_t cut,
                           MatchLength length) {
        auto answer = needs_of(chain("best-of-three-league"), pool, open, cut, length, 1);
        const auto* faults = std::get_if<Faults>(&answer);
        return faults == nullptr ? std::string{"none"} : faults->front().message;
    };
    EXPECT_EQ(fault(last_round, 4, {3}), "place 4 cannot be the last that goes on");
    EXPECT_EQ(fault(last_round, 2, {7}), "a match of 7 sets");
    EXPECT_EQ(fault(last_round, 2, {0, true}), "a match of 0 sets");
    EXPECT_EQ(fault(last_round, 2, {2}), "best of 2 can end in a draw");
    EXPECT_EQ(fault({{0, 9, 3}}, 2, {3}), "a team that is not in the pool");
    EXPECT_EQ(fault(last_round, 2, {5}), "best-of-three-league gives no match points for 3-0");
    EXPECT_EQ(fault(last_round, 2, {2, true}),
              "best-of-three-league gives no match points for 1-1");
}

// --- a fixed number of sets ---------------------------------------------------------------------

constexpr MatchLength two_sets{2, true};
constexpr MatchLength three_sets{3, true};

TEST(NeedsOfAFixedNumberOfSets, TwoSetsMayEndLevel) {
    // Matches won: A 1, B 1, C 0, D 0. B - C and A - D are open, the first of the pool goes on.
    const Pool pool = pool_of({"A", "B", "C", "D"}, {"A-C 25-20 25-20", "B-D 25-20 25-20"});
    const std::vector<OpenMatch> open{{0, 3, 11}, {1, 2, 12}};
    const Needs n = needs("us-junior-national", pool, open, 2, two_sets);
    EXPECT_EQ(n.courses, 9U);
    EXPECT_TRUE(n.with_sets);
    for (const TeamNeeds& t : n.teams) EXPECT_EQ(t.through + t.out + t.hangs, 9U);
    // Whoever wins or draws is level with nobody below; a team that lost both may be passed.
    EXPECT_EQ(words(n.teams[0].enough, pool, open, two_sets).front(), "A beats D");
    const auto draws = [&](const Condition& c) {
        return in_words(c, pool, open, two_sets) == "A draws with D 1-1";
    };
    EXPECT_TRUE(std::any_of(n.teams[0].enough.begin(), n.teams[0].enough.end(), draws));
}

TEST(NeedsOfAFixedNumberOfSets, ThreeSetsAreAllPlayed) {
    const Pool pool = before_the_last_round();
    const Needs n = needs("us-junior-national", pool, last_round, 2, three_sets);
    EXPECT_EQ(n.courses, 16U) << "3-0, 2-1, 1-2 and 0-3 of two matches";
    const std::vector<std::string> enough = words(n.teams[1].enough, pool, last_round, three_sets);
    EXPECT_EQ(enough, std::vector<std::string>{"B beats C"});
    const Condition closely{{1, Result::Winner::second, 1}};
    EXPECT_EQ(in_words(closely, pool, last_round, three_sets), "C beats B 2-1");
    const Condition in_three{{1, Result::Winner::second, 1}};
    EXPECT_EQ(in_words(in_three, pool, last_round, {3}), "C beats B 2-1");
    EXPECT_EQ(in_words(in_three, pool, last_round, {5, true}), "C beats B 4-1");
}

TEST(NeedsOfAFixedNumberOfSets, OfManyCoursesOnlyWinnersAreNamedAndWhatEndsLevel) {
    // 4-0, 3-1, 2-2, 1-3 and 0-4 of seven matches are too many.
    std::vector<OpenMatch> open = all_of(5);
    open.resize(7);
    const Pool pool = pool_of({"A", "B", "C", "D", "E"}, {});
    const Needs n = needs("us-junior-national", pool, open, 2, {4, true});
    EXPECT_TRUE(n.exact);
    EXPECT_FALSE(n.with_sets);
    EXPECT_EQ(n.courses, 2187U) << "three winners of each: one side, the other, nobody";
    for (const TeamNeeds& t : n.teams) EXPECT_EQ(t.through + t.out + t.hangs, 2187U);
}

}  // namespace
}  // namespace courthand::standings
