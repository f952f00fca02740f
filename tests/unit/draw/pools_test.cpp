// Pools: the snake, draws by lot, moves by hand and what they break.
#include "courthand/draw/pools.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace courthand::draw {
namespace {

Pools snake(std::size_t teams, std::size_t pools) {
    return std::get<Pools>(serpentine(teams, pools));
}

TEST(Serpentine, PublishedAndComputedDraws) {
    // Published on a template of a tournament day.
    EXPECT_EQ(snake(12, 3), (Pools{{1, 6, 7, 12}, {2, 5, 8, 11}, {3, 4, 9, 10}}));
    EXPECT_EQ(snake(16, 4), (Pools{{1, 8, 9, 16}, {2, 7, 10, 15}, {3, 6, 11, 14}, {4, 5, 12, 13}}));
    EXPECT_EQ(
        snake(20, 4),
        (Pools{{1, 8, 9, 16, 17}, {2, 7, 10, 15, 18}, {3, 6, 11, 14, 19}, {4, 5, 12, 13, 20}}));
}

TEST(Serpentine, EveryTeamOnceInPoolsOfThreeToEightThatDifferByOneAtMost) {
    for (std::size_t pools = 1; pools <= most_pools; ++pools)
        for (std::size_t teams = 3 * pools; teams <= 8 * pools; ++teams) {
            std::vector<Seed> all;
            std::size_t smallest = 8;
            std::size_t largest = 3;
            for (const auto& pool : snake(teams, pools)) {
                all.insert(all.end(), pool.begin(), pool.end());
                smallest = std::min(smallest, pool.size());
                largest = std::max(largest, pool.size());
            }
            std::sort(all.begin(), all.end());
            ASSERT_EQ(all.size(), teams);
            for (std::size_t i = 0; i < teams; ++i) EXPECT_EQ(all[i], i + 1);
            EXPECT_LE(largest - smallest, 1U);
        }
}

std::string fault(std::size_t teams, std::size_t pools) {
    const auto answer = serpentine(teams, pools);
    const auto* faults = std::get_if<Faults>(&answer);
    if (faults == nullptr) return "none";
    EXPECT_FALSE(faults->front().cure.empty());
    return faults->front().message;
}

TEST(Serpentine, PoolsThatCannotBePlayedAreRefused) {
    EXPECT_EQ(fault(3, 3), "3 teams in 3 pools: a pool of one");
    EXPECT_EQ(fault(11, 4), "11 teams in 4 pools: a pool of 2");
    EXPECT_EQ(fault(17, 2), "17 teams in 2 pools: a pool of 9");
    EXPECT_EQ(fault(12, 0), "0 pools");
    EXPECT_EQ(fault(200, 27), "27 pools");
}

TEST(DrawnInRows, TheSameSeedGivesTheSameDrawOnEveryMachine) {
    // Written down once: a change of the generator or of the shuffle must be noticed.
    const auto drawn = [](std::uint64_t seed) {
        return std::get<Pools>(drawn_in_rows(12, 3, seed));
    };
    EXPECT_EQ(drawn(2026), (Pools{{1, 5, 8, 10}, {2, 6, 7, 11}, {3, 4, 9, 12}}));
    EXPECT_NE(drawn(2026), drawn(2027));
}

TEST(DrawnByLot, TheBestStayAndTheSameSeedGivesTheSameDraw) {
    EXPECT_EQ(drawn_by_lot(8, 2, 2026), (std::vector<Seed>{1, 2, 6, 7, 3, 5, 8, 4}));
    EXPECT_EQ(drawn_by_lot(8, 0, 7), (std::vector<Seed>{2, 5, 6, 3, 7, 1, 4, 8}));
    EXPECT_EQ(drawn_by_lot(3, 9, 7), (std::vector<Seed>{1, 2, 3}));
}

TEST(DrawnInRows, EachPoolHasATeamOfEachRowAndHeadsStay) {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const Pools pools = std::get<Pools>(drawn_in_rows(14, 4, seed));
        for (std::size_t p = 0; p < 4; ++p) {
            EXPECT_EQ(pools[p][0], p + 1);
            for (std::size_t row = 0; row < pools[p].size(); ++row)
                EXPECT_EQ((pools[p][row] - 1U) / 4, row);
        }
    }
}

std::vector<Entry> twelve() {
    std::vector<Entry> entries;
    for (int i = 1; i <= 12; ++i) entries.push_back({"Team " + std::to_string(i), "", ""});
    return entries;
}

std::vector<std::string> words(const std::vector<Breach>& breaches,
                               const std::vector<Entry>& entries) {
    std::vector<std::string> all;
    for (const Breach& b : breaches) all.push_back(in_words(b, entries));
    return all;
}

using Lines = std::vector<std::string>;

TEST(Pools, WhatNoDrawCanAvoidIsProvenByCounting) {
    auto entries = twelve();
    for (const std::size_t team : {0U, 1U, 2U}) entries[team].club = "Gulls";
    for (const std::size_t team : {3U, 4U, 5U, 6U}) entries[team].last_pool = "C";
    EXPECT_EQ(breaches_of_every_draw(entries, 4), std::vector<std::string>{});
    EXPECT_EQ(breaches_of_every_draw(entries, 3),
              (std::vector<std::string>{"4 teams met in the last event, in pool C, and there are "
                                        "3 pools: two of them meet in any draw"}));
    EXPECT_EQ(
        breaches_of_every_draw(entries, 2)[0],
        "3 teams are of one club, Gulls, and there are 2 pools: two of them meet in any draw");
    EXPECT_EQ(breaches_of_every_draw(twelve(), 1), std::vector<std::string>{})
        << "nobody told a club";
}

TEST(Moves, AMoveTellsTheClubAndTheLastPoolItBreaks) {
    auto entries = twelve();
    entries[0].club = entries[4].club = "Gulls";
    entries[10].last_pool = entries[6].last_pool = "C";
    const auto swapped = std::get<Change>(swap_teams(snake(12, 3), entries, DrawLimits{}, 6, 5));
    EXPECT_EQ(swapped.pools, (Pools{{1, 5, 7, 12}, {2, 6, 8, 11}, {3, 4, 9, 10}}));
    EXPECT_EQ(words(swapped.broken, entries),
              (Lines{"pool A: Team 1 and Team 5 are of one club, Gulls"}));
    EXPECT_TRUE(swapped.mended.empty());
    const auto last = std::get<Change>(swap_teams(snake(12, 3), entries, DrawLimits{}, 8, 7));
    EXPECT_EQ(words(last.broken, entries),
              (Lines{"pool B: Team 7 and Team 11 met in pool C of the last event"}));
    const auto back = std::get<Change>(swap_teams(last.pools, entries, DrawLimits{}, 7, 8));
    EXPECT_TRUE(back.broken.empty());
    EXPECT_EQ(back.mended.size(), 1U);
    EXPECT_EQ(back.pools, snake(12, 3));
}

TEST(Moves, ThreePlacesFromTheSeedAreAllowedFourAreTold) {
    const auto entries = twelve();
    // 6 stands for 9 in pool C: three places.
    auto change = std::get<Change>(swap_teams(snake(12, 3), entries, DrawLimits{}, 6, 9));
    EXPECT_TRUE(change.broken.empty());
    // 7 stands for 11 in pool B: four places, and 11 for 7.
    change = std::get<Change>(swap_teams(snake(12, 3), entries, DrawLimits{}, 7, 11));
    EXPECT_EQ(words(change.broken, entries),
              (Lines{"pool A: Team 11 (seed 11) is 4 places from where the seeds put it"}));
}

TEST(Moves, SizesOfPoolsAreTold) {
    const auto entries = twelve();
    auto change = std::get<Change>(move_team(snake(12, 3), entries, DrawLimits{}, 12, 1));
    EXPECT_EQ(change.pools[1], (std::vector<Seed>{2, 5, 8, 11, 12}));
    EXPECT_EQ(words(change.broken, entries),
              (Lines{"pool B has 2 teams more than the smallest pool"}));
    change = std::get<Change>(move_team(change.pools, entries, DrawLimits{}, 7, 2));
    EXPECT_NE(std::find_if(change.broken.begin(), change.broken.end(),
                           [](const Breach& b) { return b.kind == Breach::Kind::pool_size; }),
              change.broken.end());
}

TEST(Moves, WrongInputIsTold) {
    const auto entries = twelve();
    const auto message = [](const std::variant<Change, Faults>& answer) {
        const auto* faults = std::get_if<Faults>(&answer);
        return faults == nullptr ? std::string{"none"} : faults->front().message;
    };
    const Pools pools = snake(12, 3);
    EXPECT_EQ(message(move_team(pools, entries, {}, 13, 0)), "seed 13 is in no pool");
    EXPECT_EQ(message(move_team(pools, entries, {}, 1, 0)), "seed 1 is in pool A already");
    EXPECT_EQ(message(move_team(pools, entries, {}, 1, 5)), "there is no pool 6");
    EXPECT_EQ(message(swap_teams(pools, entries, {}, 1, 6)), "seeds 1 and 6 are both in pool A");
    EXPECT_EQ(message(swap_teams(pools, {}, {}, 1, 5)), "seed 1 is no entry");
}

}  // namespace
}  // namespace courthand::draw
