#include <fmt/format.h>

#include <array>
#include <bit>
#include <utility>

#include "courthand/tournament/brackets.h"

namespace courthand::tournament {
namespace {

/// How many pairs of one pool can meet in each round of the bracket, the first round first: the
/// smaller in this order, the better.
using Meetings = std::array<int, 16>;

/// Which pool each seed of the bracket is from, with the meetings that follow.
class Crossing {
  public:
    explicit Crossing(std::vector<std::size_t> pool_of_seed)
        : pools_{std::move(pool_of_seed)}, slots_(pools_.size()) {
        std::size_t size = 1;
        while (size < pools_.size()) size *= 2;
        const auto seeds = slots_of(size);
        for (std::size_t slot = 0; slot < size; ++slot)
            if (seeds[slot] <= pools_.size()) slots_[seeds[slot] - 1U] = slot;
        for (std::size_t seed = 0; seed < pools_.size(); ++seed) count(seed, 1);
        for (int& pairs : meetings_) pairs /= 2;  // each was counted from both its ends
    }

    [[nodiscard]] const Meetings& meetings() const noexcept { return meetings_; }
    [[nodiscard]] const std::vector<std::size_t>& pools() const noexcept { return pools_; }

    /// Two seeds of different pools change places.
    void swap(std::size_t a, std::size_t b) {
        count(a, -1);
        count(b, -1);
        std::swap(pools_[a], pools_[b]);
        count(a, 1);
        count(b, 1);
    }

  private:
    /// Adds the meetings of a seed with all others of its pool.
    void count(std::size_t seed, int weight) {
        for (std::size_t other = 0; other < pools_.size(); ++other)
            if (other != seed && pools_[other] == pools_[seed])
                meetings_[std::bit_width(slots_[seed] ^ slots_[other]) - 1U] += weight;
    }

    std::vector<std::size_t> pools_;
    std::vector<std::size_t> slots_;
    Meetings meetings_{};
};

/// Changes places within a row (teams of the same place in their pools) as long as that helps.
void cross(Crossing& crossing, std::size_t row) {
    const std::size_t seeds = crossing.pools().size();
    Meetings best = crossing.meetings();
    for (bool better = true; better;) {
        better = false;
        for (std::size_t i = row; i < seeds; ++i)
            for (std::size_t k = i + 1; k < (i / row + 1) * row && k < seeds; ++k) {
                crossing.swap(i, k);
                if (crossing.meetings() < best) {
                    best = crossing.meetings();
                    better = true;
                } else {
                    crossing.swap(i, k);
                }
            }
    }
}

}  // namespace

std::variant<std::vector<SourceIndex>, Faults> crossed(Graph& graph,
                                                       const std::vector<PoolIndex>& pools,
                                                       std::uint16_t through, std::uint16_t from) {
    Faults faults;
    if (pools.empty() || from == 0 || through < from)
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
    const std::size_t entrants_of_each = faults.empty() ? through - from + 1U : 0U;
    if (pools.size() * entrants_of_each > most_in_bracket)
        faults.push_back({"crossover",
                          fmt::format("{} teams go on; a bracket has {} at most",
                                      pools.size() * entrants_of_each, most_in_bracket),
                          "let fewer go on"});
    if (!faults.empty()) return faults;
    std::vector<std::size_t> pool_of_seed;
    for (std::uint16_t place = from; place <= through; ++place)
        for (std::size_t p = 0; p < pools.size(); ++p) pool_of_seed.push_back(p);
    Crossing crossing{std::move(pool_of_seed)};
    cross(crossing, pools.size());
    std::vector<SourceIndex> entrants;
    for (std::size_t i = 0; i < crossing.pools().size(); ++i)
        entrants.push_back(graph.add({Source::Kind::place, pools[crossing.pools()[i]],
                                      static_cast<std::uint32_t>(i / pools.size() + from)}));
    return entrants;
}

}  // namespace courthand::tournament
