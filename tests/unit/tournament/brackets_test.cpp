// Brackets of 2 to 64: how many matches, who gets byes, where everyone ends.
#include "courthand/tournament/brackets.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "played.h"

namespace courthand::tournament {
namespace {

TEST(Slots, AsComputed) {
    EXPECT_EQ(slots_of(4), (std::vector<std::uint16_t>{1, 4, 2, 3}));
    EXPECT_EQ(slots_of(8), (std::vector<std::uint16_t>{1, 8, 4, 5, 2, 7, 3, 6}));
    EXPECT_EQ(slots_of(16),
              (std::vector<std::uint16_t>{1, 16, 8, 9, 4, 13, 5, 12, 2, 15, 7, 10, 3, 14, 6, 11}));
}

TEST(Slots, FirstPairsSumToOneMoreThanTheSizeAndTheBestTwoMeetInTheFinalOnly) {
    for (std::size_t size = 2; size <= 64; size *= 2) {
        const auto slots = slots_of(size);
        for (std::size_t i = 0; i < size; i += 2) EXPECT_EQ(slots[i] + slots[i + 1U], size + 1);
        const auto second = std::find(slots.begin(), slots.end(), 2) - slots.begin();
        EXPECT_EQ(slots[0], 1);
        EXPECT_GE(static_cast<std::size_t>(second), size / 2);
    }
}

// A 6-team bracket of a published 12-team day.
TEST(SingleElimination, OfSixAsPublished) {
    BracketOptions options;
    options.prefix = "CH";
    const Graph g = bracket(add_single_elimination, 6, options);
    ASSERT_EQ(g.matches.size(), 5U);
    EXPECT_EQ(sides(g, "CH1"), "team 4 - team 5");
    EXPECT_EQ(sides(g, "CH2"), "team 3 - team 6");
    EXPECT_EQ(sides(g, "CH3"), "team 1 - winner of CH1");
    EXPECT_EQ(sides(g, "CH4"), "team 2 - winner of CH2");
    EXPECT_EQ(sides(g, "CH5"), "winner of CH3 - winner of CH4");
    EXPECT_EQ(g.matches[4].stage, Stage::final);
}

// Published: 13 teams, 12 matches, 3 byes, 4 rounds, 5 matches in the first.
TEST(SingleElimination, OfThirteenAsPublished) {
    const Graph g = bracket(add_single_elimination, 13);
    EXPECT_EQ(g.matches.size(), 12U);
    std::map<int, int> in_round;
    for (const Match& m : g.matches) ++in_round[m.round];
    EXPECT_EQ(in_round, (std::map<int, int>{{1, 5}, {2, 4}, {3, 2}, {4, 1}}));
    std::set<std::uint32_t> in_second;
    for (const Match& m : g.matches)
        for (const SourceIndex s : m.sides)
            if (m.round == 2 && g.sources[s].kind == Source::Kind::team)
                in_second.insert(g.sources[s].of);
    EXPECT_EQ(in_second, (std::set<std::uint32_t>{1, 2, 3}));
}

TEST(DoubleElimination, OfSixteenHasThirtyMatchesOrThirtyOne) {
    EXPECT_EQ(bracket(add_double_elimination, 16).matches.size(), 30U);
    BracketOptions options;
    options.second_final = true;
    EXPECT_EQ(bracket(add_double_elimination, 16, options).matches.size(), 31U);
}

TEST(Placement, OfEightHasTwelveMatches) {
    const Graph g = bracket(add_placement, 8);
    EXPECT_EQ(g.matches.size(), 12U);
    std::map<int, int> in_round;
    for (const Match& m : g.matches) ++in_round[m.round];
    EXPECT_EQ(in_round, (std::map<int, int>{{1, 4}, {2, 4}, {3, 4}}));
}

class EveryBracket : public testing::TestWithParam<TeamNumber> {
  protected:
    /// The same coin for the same seed.
    static std::function<bool(TeamNumber, TeamNumber)> coin(std::uint64_t seed) {
        return [random = draw::Random{seed}](TeamNumber, TeamNumber) mutable {
            return random.below(2) == 0;
        };
    }
};

constexpr std::uint64_t courses = 5;

TEST_P(EveryBracket, SingleEliminationHasALossForAllButOne) {
    const TeamNumber n = GetParam();
    for (const bool third : {false, true}) {
        BracketOptions options;
        options.third_place = third;
        const Graph g = bracket(add_single_elimination, n, options);
        EXPECT_TRUE(faults_of(g).empty());
        EXPECT_EQ(g.matches.size(), n - 1U + (third && n >= 4 ? 1U : 0U));
        const Played best = play(g, better_seed_wins);
        EXPECT_EQ(best.places[0], 1);
        EXPECT_EQ(best.places[1], 2);
        for (std::uint64_t seed = 0; seed < courses; ++seed) {
            const Played p = play(g, coin(seed));
            for (TeamNumber t = 0; t < n; ++t) EXPECT_NE(p.places[t], 0);
            if (!third) {
                EXPECT_EQ(std::accumulate(p.losses.begin(), p.losses.end(), 0), n - 1);
                EXPECT_LE(*std::max_element(p.losses.begin(), p.losses.end()), 1);
            }
        }
    }
}

TEST_P(EveryBracket, DoubleEliminationPutsOutAfterTwoLosses) {
    const TeamNumber n = GetParam();
    for (const bool second : {false, true}) {
        BracketOptions options;
        options.second_final = second;
        const Graph g = bracket(add_double_elimination, n, options);
        EXPECT_TRUE(faults_of(g).empty());
        EXPECT_EQ(g.matches.size(), 2U * n - 2 + (second ? 1 : 0));
        for (std::uint64_t seed = 0; seed < courses; ++seed) {
            const Played p = play(g, coin(seed));
            for (TeamNumber t = 0; t < n; ++t) {
                EXPECT_NE(p.places[t], 0);
                if (p.places[t] > 2 || (second && p.places[t] == 2)) {
                    EXPECT_EQ(p.losses[t], 2);
                }
                if (p.places[t] == 1 && second) {
                    EXPECT_LE(p.losses[t], 1);
                }
            }
        }
    }
}

TEST_P(EveryBracket, NobodyMeetsAgainBeforeTheThirdRoundOfTheLosers) {
    // Of the first two rounds of the losers' bracket, whatever happens.
    const TeamNumber n = GetParam();
    if (n < 8) return;
    const Graph g = bracket(add_double_elimination, n);
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        const Played p = play(g, coin(seed));
        const auto settled = settle(g, p.outcomes);
        std::set<std::pair<int, int>> met;
        for (const Match& m : g.matches) {
            // By value: of two arguments minmax gives references, here to converted temporaries.
            const std::pair<int, int> pair =
                std::minmax({int{settled[m.sides[0]].team}, int{settled[m.sides[1]].team}});
            const bool again = !met.insert(pair).second;
            if (m.stage == Stage::losers && m.round <= 2) {
                EXPECT_FALSE(again) << m.name;
            }
        }
    }
}

TEST_P(EveryBracket, PlacementGivesEveryTeamItsOwnPlace) {
    const TeamNumber n = GetParam();
    const Graph g = bracket(add_placement, n);
    EXPECT_TRUE(faults_of(g).empty());
    const Played best = play(g, better_seed_wins);
    for (TeamNumber t = 0; t < n; ++t) EXPECT_EQ(best.places[t], t + 1);
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        std::vector<int> places = play(g, coin(seed)).places;
        std::sort(places.begin(), places.end());
        for (TeamNumber t = 0; t < n; ++t) EXPECT_EQ(places[t], t + 1);
    }
}

TEST_P(EveryBracket, ConsolationGivesEveryTeamTwoMatchesAndAPlace) {
    const TeamNumber n = GetParam();
    const Graph g = bracket(add_consolation, n);
    EXPECT_TRUE(faults_of(g).empty());
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        const Played p = play(g, coin(seed));
        for (TeamNumber t = 0; t < n; ++t) {
            EXPECT_NE(p.places[t], 0);
            // Two teams have the final alone; of three one meets the final's winner at once.
            if (n > 3) {
                EXPECT_GE(p.matches[t], 2);
            }
        }
    }
}

TEST_P(EveryBracket, NobodyMeetsAgainAtOnceInTheConsolation) {
    const TeamNumber n = GetParam();
    if (n < 6) return;
    const Graph g = bracket(add_consolation, n);
    for (std::uint64_t seed = 0; seed < 4 * courses; ++seed) {
        const Played p = play(g, coin(seed));
        const auto settled = settle(g, p.outcomes);
        std::set<std::pair<int, int>> met;
        for (const Match& m : g.matches) {
            // By value: of two arguments minmax gives references, here to converted temporaries.
            const std::pair<int, int> pair =
                std::minmax({int{settled[m.sides[0]].team}, int{settled[m.sides[1]].team}});
            const bool again = !met.insert(pair).second;
            if (m.stage == Stage::consolation && m.round == 1) {
                EXPECT_FALSE(again) << m.name;
            }
        }
    }
}

TEST_P(EveryBracket, ByesGoToTheBestSeeds) {
    const TeamNumber n = GetParam();
    std::size_t size = 2;
    while (size < n) size *= 2;
    for (const Add add :
         {&add_single_elimination, &add_double_elimination, &add_consolation, &add_placement}) {
        const Graph g = bracket(add, n);
        std::set<std::uint32_t> byes;
        for (TeamNumber t = 1; t <= n; ++t) byes.insert(t);
        for (const Match& m : g.matches)
            for (const SourceIndex s : m.sides)
                if (m.stage != Stage::placement && m.round == 1 &&
                    g.sources[s].kind == Source::Kind::team)
                    byes.erase(g.sources[s].of);
        ASSERT_EQ(byes.size(), size - n);
        for (TeamNumber t = 1; t <= byes.size(); ++t) EXPECT_TRUE(byes.count(t) == 1) << t;
        for (const Source& s : g.sources) EXPECT_NE(s.kind, Source::Kind::bye);
    }
}

INSTANTIATE_TEST_SUITE_P(ToSixtyFour, EveryBracket, testing::Range<TeamNumber>(2, 65));

TEST(Brackets, OneTeamAndSixtyFiveAreRefused) {
    for (const Add add :
         {&add_single_elimination, &add_double_elimination, &add_consolation, &add_placement}) {
        Field field = field_of(65);
        const Faults many = add(field.graph, field.entrants, {});
        ASSERT_EQ(many.size(), 1U);
        EXPECT_EQ(many[0].message, "65 entrants; a bracket has 64 at most");
        EXPECT_EQ(many[0].cure, "play pools first, or make two brackets");
        EXPECT_TRUE(field.graph.matches.empty());
        Field one = field_of(1);
        EXPECT_EQ(add(one.graph, one.entrants, {})[0].message, "1 entrants");
    }
}

}  // namespace
}  // namespace courthand::tournament
