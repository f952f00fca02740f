// From pools into brackets: teams of one pool meet as late as can be.
#include <set>

#include "played.h"

namespace courthand::tournament {
namespace {

struct Day {
    Graph graph;
    std::vector<SourceIndex> entrants;
};

Day day(std::size_t pools, std::size_t teams, std::uint16_t through) {
    Field field = field_of(static_cast<TeamNumber>(pools * teams));
    std::vector<PoolIndex> indices;
    for (std::size_t p = 0; p < pools; ++p) {
        std::vector<SourceIndex> members;
        for (std::size_t t = 0; t < teams; ++t) members.push_back(field.entrants[p + t * pools]);
        const std::string name(1, static_cast<char>('A' + p));
        EXPECT_TRUE(add_pool(field.graph, name, members, name).empty());
        indices.push_back(static_cast<PoolIndex>(p));
    }
    auto entrants = std::get<std::vector<SourceIndex>>(crossed(field.graph, indices, through));
    return {std::move(field.graph), std::move(entrants)};
}

TEST(Crossover, OfTwoPoolsIsFirstAgainstSecond) {
    Day d = day(2, 4, 2);
    BracketOptions options;
    options.third_place = true;
    EXPECT_TRUE(add_single_elimination(d.graph, d.entrants, options).empty());
    EXPECT_TRUE(faults_of(d.graph).empty());
    EXPECT_EQ(sides(d.graph, "M1"), "1st of pool A - 2nd of pool B");
    EXPECT_EQ(sides(d.graph, "M2"), "1st of pool B - 2nd of pool A");
    EXPECT_EQ(sides(d.graph, "M3"), "loser of M1 - loser of M2");
    EXPECT_EQ(sides(d.graph, "M4"), "winner of M1 - winner of M2");
}

TEST(Crossover, NoTwoTeamsOfAPoolMeetInTheFirstRound) {
    for (std::size_t pools = 2; pools <= 16; ++pools)
        for (std::uint16_t through = 1; through <= 4 && pools * through <= 64; ++through) {
            Day d = day(pools, 4, through);
            if (d.entrants.size() < 2) continue;
            BracketOptions options;
            options.prefix = "KO";  // one of the pools is called M
            ASSERT_TRUE(add_single_elimination(d.graph, d.entrants, options).empty());
            ASSERT_TRUE(faults_of(d.graph).empty());
            for (const Match& m : d.graph.matches) {
                if (m.stage == Stage::pool || m.round != 1) continue;
                const Source& a = d.graph.sources[m.sides[0]];
                const Source& b = d.graph.sources[m.sides[1]];
                const bool places = a.kind == Source::Kind::place && b.kind == Source::Kind::place;
                EXPECT_FALSE(places && a.of == b.of)
                    << pools << " pools, " << through << " through, " << m.name;
            }
        }
}

TEST(Crossover, TwoTeamsOfAPoolMeetInTheFinalAtTheEarliestWhereTwoGoOn) {
    for (const std::size_t pools : {2U, 4U, 8U, 16U}) {
        const Day d = day(pools, 4, 2);
        const auto slots = slots_of(2 * pools);
        for (std::size_t p = 0; p < pools; ++p) {
            std::set<bool> halves;
            for (std::size_t i = 0; i < slots.size(); ++i)
                if (d.graph.sources[d.entrants[slots[i] - 1U]].of == p)
                    halves.insert(i < slots.size() / 2);
            EXPECT_EQ(halves.size(), 2U) << pools << " pools, pool " << p;
        }
    }
}

TEST(Crossover, TheFirstOfPoolsAreTheBestSeeds) {
    const Day d = day(6, 4, 2);
    for (std::size_t i = 0; i < 12; ++i)
        EXPECT_EQ(d.graph.sources[d.entrants[i]].second, i < 6 ? 1U : 2U);
}

TEST(Crossover, WrongInputIsTold) {
    Day d = day(2, 4, 2);
    const auto message = [&](const std::vector<PoolIndex>& pools, std::uint16_t through) {
        const auto answer = crossed(d.graph, pools, through);
        const auto* faults = std::get_if<Faults>(&answer);
        return faults == nullptr ? std::string{"none"} : faults->front().message;
    };
    EXPECT_EQ(message({}, 2), "nobody goes on");
    EXPECT_EQ(message({0, 9}, 2), "a pool that is not there");
    EXPECT_EQ(message({0, 1}, 5), "5 cannot go on of 4");
}

TEST(Pool, OfOneAndOfSeventeenAreRefused) {
    Field field = field_of(20);
    EXPECT_EQ(add_pool(field.graph, "A", {field.entrants[0]}, "A")[0].message,
              "a round robin of one team has no match");
    std::vector<SourceIndex> many(field.entrants.begin(), field.entrants.begin() + 17);
    const Faults faults = add_pool(field.graph, "A", many, "A");
    EXPECT_EQ(faults[0].message, "17 teams; a round robin has 16 at most");
    EXPECT_EQ(faults[0].place, "pool A");
}

TEST(Pool, ABracketFindsLettersThatNoPoolHas) {
    const auto without = [](std::string_view pools) {
        return free_prefix([pools](const std::string& name) {
            return name.size() == 2 && pools.find(name.front()) != std::string_view::npos;
        });
    };
    EXPECT_EQ(without(""), "M");
    EXPECT_EQ(without("ABCDEFGHIJKL"), "M") << "twelve pools";
    EXPECT_EQ(without("ABCDEFGHIJKLM"), "N");
    EXPECT_EQ(without("ABCDEFGHIJKLMN"), "P") << "O is read as a digit";
    EXPECT_EQ(without("ABCDEFGHIJKLMNOPQRSTUVWXYZ"), "BM");
}

TEST(Pool, TheCureOfATakenNameNamesLettersThatAreFree) {
    Day d = day(13, 3, 1);
    BracketOptions options;
    options.prefix = d.graph.pools.back().name;
    const Faults faults = add_single_elimination(d.graph, d.entrants, options);
    ASSERT_EQ(faults.size(), 1U);
    const std::string cure = faults[0].cure;
    const std::string letters = cure.substr(cure.rfind(' ') + 1);
    options.prefix = letters;
    EXPECT_TRUE(add_single_elimination(d.graph, d.entrants, options).empty()) << letters;
}

TEST(Pool, TwoBracketsDoNotShareTheNamesOfTheirMatches) {
    Day d = day(2, 4, 2);
    BracketOptions options;
    options.prefix = "A";
    EXPECT_EQ(add_single_elimination(d.graph, d.entrants, options)[0].message,
              "there is a match A1 already");
    EXPECT_EQ(add_pool(d.graph, "C", {d.entrants[0], d.entrants[1]}, "B")[0].message,
              "there is a match B1 already");
}

}  // namespace
}  // namespace courthand::tournament
