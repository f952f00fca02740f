// Adds matches to a graph, one bracket at a time. Internal to shared-core/tournament.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "courthand/tournament/brackets.h"

namespace courthand::tournament {

/// An entrant of a round; nothing stands for a bye.
using Entrant = std::optional<SourceIndex>;

/// What a round leaves: one entrant for each pair, in the order of the pairs.
struct Halves {
    std::vector<Entrant> winners;
    std::vector<Entrant> losers;
};

class BracketBuilder {
  public:
    BracketBuilder(Graph& graph, std::string prefix)
        : graph_{graph}, prefix_{std::move(prefix)}, first_{graph.matches.size()} {}

    /// A match, or none when a side is a bye: then the other wins and the bye loses.
    std::pair<Entrant, Entrant> meet(Entrant a, Entrant b, Stage stage, std::uint16_t round);

    /// Neighbours meet.
    Halves round(const std::vector<Entrant>& entrants, Stage stage, std::uint16_t round);

    /// A knock-out of entrants in the order of their slots; gives the losers of each round.
    std::vector<Halves> knock_out(std::vector<Entrant> slots, Stage stage);

    /// Gives places from `next` on to all that are left, who share them.
    void share_places(const std::vector<Entrant>& entrants, std::uint16_t& next);
    void place(Entrant entrant, std::uint16_t& next) { share_places({entrant}, next); }

    [[nodiscard]] Graph& graph() noexcept { return graph_; }
    [[nodiscard]] MatchIndex first() const noexcept { return static_cast<MatchIndex>(first_); }

  private:
    Graph& graph_;
    std::string prefix_;
    std::size_t first_;
    std::size_t numbered_ = 0;
};

/// Entrants by slot: the best seeds get the byes.
[[nodiscard]] std::vector<Entrant> slotted(const std::vector<SourceIndex>& entrants);

/// Empty when a bracket of these can be made with matches of this prefix.
[[nodiscard]] Faults faults_of_entrants(const Graph& graph,
                                        const std::vector<SourceIndex>& entrants,
                                        const std::string& prefix);

/// Matches are numbered from 1 after their prefix, so that a prefix serves once.
[[nodiscard]] Faults faults_of_prefix(const Graph& graph, const std::string& prefix);

[[nodiscard]] constexpr bool real(const Entrant& entrant) noexcept {
    return entrant.has_value();
}

}  // namespace courthand::tournament
