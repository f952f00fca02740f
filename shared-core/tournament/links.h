// What leads to what in a match graph. Internal to shared-core/tournament.
#pragma once

#include <cstddef>
#include <vector>

#include "courthand/tournament/graph.h"

namespace courthand::tournament {

/// Sources, matches and pools of a graph as nodes of one numbering.
class Links {
  public:
    explicit Links(const Graph& graph)
        : matches_{graph.sources.size()},
          pools_{matches_ + graph.matches.size()},
          count_{pools_ + graph.pools.size()} {}

    [[nodiscard]] std::size_t source(std::size_t i) const noexcept { return i; }
    [[nodiscard]] std::size_t match(std::size_t i) const noexcept { return matches_ + i; }
    [[nodiscard]] std::size_t pool(std::size_t i) const noexcept { return pools_ + i; }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }

    [[nodiscard]] bool is_source(std::size_t node) const noexcept { return node < matches_; }
    [[nodiscard]] bool is_match(std::size_t node) const noexcept {
        return node >= matches_ && node < pools_;
    }
    /// The index of a node among its kind.
    [[nodiscard]] std::size_t index(std::size_t node) const noexcept {
        if (is_source(node)) return node;
        return is_match(node) ? node - matches_ : node - pools_;
    }

    /// The nodes that a node needs. All indices of the graph must be within bounds.
    [[nodiscard]] std::vector<std::size_t> needed_by(const Graph& graph, std::size_t node) const;

  private:
    std::size_t matches_;
    std::size_t pools_;
    std::size_t count_;
};

}  // namespace courthand::tournament
