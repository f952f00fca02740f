#include "server/papers/bracket_trees.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace courthand::server::papers {
namespace {

using event::Division;
using event::MatchIndex;
using Kind = tournament::Source::Kind;

/// The match whose winner a side is.
std::optional<MatchIndex> winner_of(const Division& division, event::SourceIndex source) {
    const tournament::Source& from = division.graph.sources[source];
    if (from.kind != Kind::winner || division.graph.matches[from.of].pool) return std::nullopt;
    return static_cast<MatchIndex>(from.of);
}

TreeNode tree_of(const Division& division, MatchIndex match) {
    TreeNode node{match, {}};
    for (const event::SourceIndex side : division.graph.matches[match].sides)
        if (const auto before = winner_of(division, side))
            node.before.push_back(tree_of(division, *before));
    return node;
}

/// Matches outside the pools whose winner comes to no other match.
std::vector<MatchIndex> roots(const Division& division) {
    const std::size_t count = division.graph.matches.size();
    std::vector<bool> goes_on(count, false);
    for (const tournament::Match& match : division.graph.matches)
        for (const event::SourceIndex side : match.sides)
            if (const auto before = winner_of(division, side)) goes_on[*before] = true;
    std::vector<MatchIndex> found;
    for (std::size_t m = 0; m < count; ++m)
        if (!division.graph.matches[m].pool && !goes_on[m])
            found.push_back(static_cast<MatchIndex>(m));
    return found;
}

bool fits(const TreeNode& node) {
    return leaves_of(node) <= most_leaves && rounds_of(node) <= most_rounds;
}

/// What is played for at the end of a tree: its first and last place; 0: nothing that is told.
struct PlayedFor {
    std::uint16_t first = 0;
    std::uint16_t last = 0;
};
PlayedFor played_for(const Division& division, MatchIndex root) {
    const auto comes_from = [&](const tournament::FinalPlace& place) {
        const tournament::Source& from = division.graph.sources[place.source];
        return (from.kind == Kind::winner || from.kind == Kind::loser) && from.of == root;
    };
    PlayedFor found;
    for (const tournament::FinalPlace& place : division.graph.places) {
        if (!comes_from(place)) continue;
        found.first = found.first == 0 ? place.first : std::min(found.first, place.first);
        found.last = std::max(found.last, place.last);
    }
    return found;
}

std::string title_of(const Division& division, MatchIndex root) {
    const auto [first, last] = played_for(division, root);
    if (first == 0) return fmt::format("to {}", division.graph.matches[root].name);
    return first == last ? fmt::format("place {}", first)
                         : fmt::format("places {} to {}", first, last);
}

/// Takes parts that fit off the tree, from the first round on; what is left joins them.
TreeNode cut(const Division& division, const TreeNode& node, std::vector<TreePiece>& pieces) {
    TreeNode rest{node.match, {}};
    for (const TreeNode& before : node.before) {
        if (!fits(before)) {
            rest.before.push_back(cut(division, before, pieces));
            continue;
        }
        if (!before.before.empty())
            pieces.push_back(
                {fmt::format("to {}", division.graph.matches[before.match].name), before});
        rest.before.push_back({before.match, {}});
    }
    return rest;
}

}  // namespace

std::size_t leaves_of(const TreeNode& node) {
    std::size_t leaves = 0;
    for (const TreeNode& before : node.before) leaves += leaves_of(before);
    return std::max<std::size_t>(leaves, 1);
}

std::size_t rounds_of(const TreeNode& node) {
    std::size_t rounds = 0;
    for (const TreeNode& before : node.before) rounds = std::max(rounds, rounds_of(before));
    return rounds + 1;
}

std::vector<TreePiece> tree_pieces(const Division& division) {
    std::vector<TreePiece> pieces;
    std::vector<MatchIndex> last = roots(division);
    // The best places first; what leads to none that is told comes last.
    const auto rank = [&](MatchIndex root) {
        const std::uint16_t place = played_for(division, root).first;
        return place == 0 ? ~std::uint32_t{0} : std::uint32_t{place};
    };
    std::stable_sort(last.begin(), last.end(),
                     [&](MatchIndex a, MatchIndex b) { return rank(a) < rank(b); });
    for (const MatchIndex root : last) {
        TreeNode tree = tree_of(division, root);
        const std::string title = title_of(division, root);
        if (!fits(tree)) tree = cut(division, tree, pieces);
        pieces.push_back({title, std::move(tree)});
    }
    return pieces;
}

}  // namespace courthand::server::papers
