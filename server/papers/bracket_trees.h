// The matches outside the pools as trees: a match stands above those whose winners come to it. Each
// tree is cut into pieces that a page can hold.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::server::papers {

/// What a page of A4 across holds.
inline constexpr std::size_t most_leaves = 16;
inline constexpr std::size_t most_rounds = 6;

struct TreeNode {
    event::MatchIndex match = 0;
    std::vector<TreeNode> before;  ///< whose winner comes here, by side
};

[[nodiscard]] std::size_t leaves_of(const TreeNode& node);
[[nodiscard]] std::size_t rounds_of(const TreeNode& node);

/// One piece: a tree that fits a page.
struct TreePiece {
    std::string title;  ///< "places 1 to 2", "to M61"
    TreeNode root;
};

/// Of all matches of the division outside the pools, the trees of the best places first; of each
/// first its parts, then what joins them.
[[nodiscard]] std::vector<TreePiece> tree_pieces(const event::Division& division);

}  // namespace courthand::server::papers
