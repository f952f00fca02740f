// Where the matches outside the pools stand when they are drawn: any match graph, a column for each
// step of depth, the winners' ways as trees below each other. Plain C++; units are boxes.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "courthand/tournament/graph.h"

namespace courthand::seats {

struct BracketBox {
    tournament::MatchIndex match = 0;
    std::uint16_t column = 0;  ///< matches that must be played one after the other before it
    double row = 0;            ///< of its middle, in heights of a box
    friend bool operator==(const BracketBox&, const BracketBox&) = default;
};

/// The winner of a match goes to a side of another.
struct BracketLine {
    std::size_t from = 0;  ///< index into the boxes
    std::size_t to = 0;
    bool second = false;  ///< the second side
    friend bool operator==(const BracketLine&, const BracketLine&) = default;
};

/// Matches that lead to one last match by their winners. The places are those played for in it; 0
/// when the graph gives none.
struct BracketTree {
    double row = 0;  ///< of the heading above it
    tournament::MatchIndex root = 0;
    std::uint16_t first = 0;
    std::uint16_t last = 0;
    friend bool operator==(const BracketTree&, const BracketTree&) = default;
};

struct BracketLayout {
    std::vector<BracketBox> boxes;
    std::vector<BracketLine> lines;
    std::vector<BracketTree> trees;  ///< the best places first
    std::uint16_t columns = 0;
    double rows = 0;
    friend bool operator==(const BracketLayout&, const BracketLayout&) = default;
};

/// The graph must be free of faults.
[[nodiscard]] BracketLayout layout_of(const tournament::Graph& graph);

enum class Step : std::uint8_t { left, right, up, down };
/// The box that a person means who goes on from this one; nothing at the edge.
[[nodiscard]] std::optional<std::size_t> beside(const BracketLayout& layout, std::size_t box,
                                                Step step);

}  // namespace courthand::seats
