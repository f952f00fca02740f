#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "courthand/tournament/brackets.h"

namespace courthand::tournament {
namespace {

/// How many pairs of one pool can meet in each round of the bracket, the first round first: the
/// smaller in this order, the better.
[[nodiscard]] std::vector<int> early_meetings(const std::vector<std::size_t>& pool_of_seed) {
    std::size_t size = 1;
    while (size < pool_of_seed.size()) size *= 2;
    const auto slots = slots_of(size);
    std::vector<int> meetings(16, 0);
    for (std::size_t i = 0; i < size; ++i)
        for (std::size_t k = i + 1; k < size; ++k) {
            const std::size_t a = slots[i] - 1U;
            const std::size_t b = slots[k] - 1U;
            if (a >= pool_of_seed.size() || b >= pool_of_seed.size()) continue;
            if (pool_of_seed[a] != pool_of_seed[b]) continue;
            std::size_t round = 0;
            for (std::size_t x = i, y = k; x != y; x /= 2, y /= 2) ++round;
            ++meetings[round - 1];
        }
    return meetings;
}

/// Changes places within a row (teams of the same place in their pools) as long as that helps.
void cross(std::vector<std::size_t>& pool_of_seed, std::size_t row) {
    auto best = early_meetings(pool_of_seed);
    for (bool better = true; better;) {
        better = false;
        for (std::size_t i = row; i < pool_of_seed.size(); ++i)
            for (std::size_t k = i + 1; k < (i / row + 1) * row && k < pool_of_seed.size(); ++k) {
                std::swap(pool_of_seed[i], pool_of_seed[k]);
                auto now = early_meetings(pool_of_seed);
                if (now < best) {
                    best = std::move(now);
                    better = true;
                } else {
                    std::swap(pool_of_seed[i], pool_of_seed[k]);
                }
            }
    }
}

}  // namespace

std::variant<std::vector<SourceIndex>, Faults> crossed(Graph& graph,
                                                       const std::vector<PoolIndex>& pools,
                                                       std::uint16_t through) {
    Faults faults;
    if (pools.empty() || through == 0)
        faults.push_back({"crossover", "nobody goes on", "name pools, and how many go on"});
    for (const PoolIndex p : pools) {
        if (p >= graph.pools.size())
            faults.push_back({"crossover", "a pool that is not there", "name pools of the graph"});
        else if (graph.pools[p].teams.size() < through)
            faults.push_back(
                {"pool " + graph.pools[p].name,
                 fmt::format("{} cannot go on of {}", through, graph.pools[p].teams.size()),
                 "let fewer go on"});
    }
    if (pools.size() * through > most_in_bracket)
        faults.push_back({"crossover",
                          fmt::format("{} teams go on; a bracket has {} at most",
                                      pools.size() * through, most_in_bracket),
                          "let fewer go on"});
    if (!faults.empty()) return faults;
    std::vector<std::size_t> pool_of_seed;
    for (std::uint16_t place = 1; place <= through; ++place)
        for (std::size_t p = 0; p < pools.size(); ++p) pool_of_seed.push_back(p);
    cross(pool_of_seed, pools.size());
    std::vector<SourceIndex> entrants;
    for (std::size_t i = 0; i < pool_of_seed.size(); ++i)
        entrants.push_back(graph.add({Source::Kind::place, pools[pool_of_seed[i]],
                                      static_cast<std::uint32_t>(i / pools.size() + 1)}));
    return entrants;
}

}  // namespace courthand::tournament
