// Laws that hold for every pool under every chain: random pools, seeded.
#include <algorithm>
#include <numeric>
#include <random>

#include "pools.h"

namespace courthand::standings {
namespace {

constexpr unsigned pools_for_each_chain = 400;

class Laws : public testing::TestWithParam<std::string> {
  protected:
    /// Few different scores, so that teams are often level.
    Pool random_pool() {
        Pool pool;
        pool.name = "A";
        const std::size_t n = 2 + random_() % 6;
        for (std::size_t t = 0; t < n; ++t) pool.teams.push_back("T" + std::to_string(t));
        std::uint32_t order = 0;
        for (TeamIndex a = 0; a < n; ++a)
            for (TeamIndex b = static_cast<TeamIndex>(a + 1); b < n; ++b)
                if (random_() % 10 != 0)
                    pool.results.push_back(result_in_points(a, b, random_scores(), ++order));
        return pool;
    }

    std::vector<SetScore> random_scores() {
        const SetScore won{25, static_cast<std::uint16_t>(random_() % 2 == 0 ? 20 : 23)};
        const SetScore lost{won.second, won.first};
        const bool first = random_() % 2 == 0;
        std::vector<SetScore> scores(2, first ? won : lost);
        if (random_() % 3 == 0) scores.insert(scores.begin(), first ? lost : won);
        return scores;
    }

    std::mt19937_64 random_{20261126};
};

/// The places by team name; of level teams the set of names.
std::vector<std::vector<std::string>> places_by_name(const Pool& pool, const Table& table) {
    std::vector<std::vector<std::string>> all;
    for (const Place& place : table.places) {
        std::vector<std::string> names;
        for (const TeamIndex t : place.teams) names.push_back(pool.teams[t]);
        std::sort(names.begin(), names.end());
        all.push_back(names);
    }
    return all;
}

TEST_P(Laws, TheOrderOfMatchesDoesNotMatter) {
    const Chain c = chain(GetParam());
    for (unsigned i = 0; i < pools_for_each_chain; ++i) {
        const Pool pool = random_pool();
        Pool other = pool;
        std::shuffle(other.results.begin(), other.results.end(), random_);
        for (Result& r : other.results) {
            if (random_() % 2 == 0) continue;
            std::swap(r.first, r.second);
            std::swap(r.first_sets, r.second_sets);
            for (SetScore& s : r.scores) std::swap(s.first, s.second);
        }
        EXPECT_EQ(order_of(pool, ranked(c, pool)), order_of(other, ranked(c, other)));
    }
}

TEST_P(Laws, TheNamesOfTeamsDoNotMatter) {
    const Chain c = chain(GetParam());
    for (unsigned i = 0; i < pools_for_each_chain; ++i) {
        const Pool pool = random_pool();
        std::vector<TeamIndex> to(pool.teams.size());
        std::iota(to.begin(), to.end(), TeamIndex{0});
        std::shuffle(to.begin(), to.end(), random_);
        Pool other = pool;
        for (std::size_t t = 0; t < to.size(); ++t) other.teams[to[t]] = pool.teams[t];
        for (Result& r : other.results) {
            r.first = to[r.first];
            r.second = to[r.second];
        }
        EXPECT_EQ(places_by_name(pool, ranked(c, pool)), places_by_name(other, ranked(c, other)));
    }
}

TEST_P(Laws, WhatOneTeamWinsAnotherLoses) {
    const Chain c = chain(GetParam());
    for (unsigned i = 0; i < pools_for_each_chain; ++i) {
        Record sum;
        for (const Record& r : ranked(c, random_pool()).records) {
            sum.won = static_cast<std::uint16_t>(sum.won + r.won);
            sum.lost = static_cast<std::uint16_t>(sum.lost + r.lost);
            sum.sets_won += r.sets_won;
            sum.sets_lost += r.sets_lost;
            sum.points_won += r.points_won;
            sum.points_lost += r.points_lost;
        }
        EXPECT_EQ(sum.won, sum.lost);
        EXPECT_EQ(sum.sets_won, sum.sets_lost);
        EXPECT_EQ(sum.points_won, sum.points_lost);
    }
}

TEST_P(Laws, EveryTeamHasOnePlaceAndPlacesFollowEachOther) {
    const Chain c = chain(GetParam());
    for (unsigned i = 0; i < pools_for_each_chain; ++i) {
        const Pool pool = random_pool();
        const Table table = ranked(c, pool);
        std::vector<bool> placed(pool.teams.size(), false);
        std::size_t next = 1;
        for (const Place& place : table.places) {
            EXPECT_EQ(place.number, next);
            next += place.teams.size();
            for (const TeamIndex t : place.teams) {
                EXPECT_FALSE(placed[t]);
                placed[t] = true;
            }
        }
        EXPECT_EQ(next, pool.teams.size() + 1);
    }
}

INSTANTIATE_TEST_SUITE_P(Chains, Laws, testing::ValuesIn(chain_ids()), [](const auto& tested) {
    std::string name = tested.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

}  // namespace
}  // namespace courthand::standings
