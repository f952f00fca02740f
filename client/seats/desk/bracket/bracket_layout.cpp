#include "bracket_layout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace courthand::seats {

namespace {

using tournament::Graph;
using tournament::Match;
using tournament::MatchIndex;
using tournament::Source;

constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();
/// Heights of the heading of a tree and of the space above it.
constexpr double heading_height = 0.5;
constexpr double space_between = 0.3;

/// The matches that a source waits for.
void add_waited(const Graph& graph, tournament::SourceIndex index, std::vector<MatchIndex>& out) {
    const Source& source = graph.sources[index];
    if (source.kind == Source::Kind::winner || source.kind == Source::Kind::loser)
        out.push_back(static_cast<MatchIndex>(source.of));
    if (source.kind == Source::Kind::better || source.kind == Source::Kind::worse) {
        add_waited(graph, source.of, out);
        add_waited(graph, source.second, out);
    }
}

class Drawing {
  public:
    explicit Drawing(const Graph& graph)
        : graph_{graph},
          box_(graph.matches.size(), nowhere),
          column_(graph.matches.size(), 0),
          parent_(graph.matches.size(), false) {
        add_columns();
        add_parents();
    }

    BracketLayout draw() {
        for (const MatchIndex root : roots()) {
            BracketTree tree = tree_of(root);
            tree.row = layout_.trees.empty() ? 0 : layout_.rows + space_between;
            layout_.trees.push_back(tree);
            layout_.rows = tree.row + heading_height;
            place(root);
        }
        return std::move(layout_);
    }

  private:
    [[nodiscard]] bool outside(MatchIndex match) const { return !graph_.matches[match].pool; }

    /// Matches in an order in which each comes after those that it waits for.
    [[nodiscard]] std::vector<MatchIndex> in_order() const {
        std::vector<MatchIndex> order;
        std::vector<std::uint8_t> seen(graph_.matches.size(), 0);
        std::vector<MatchIndex> open;
        for (std::size_t start = 0; start < graph_.matches.size(); ++start) {
            open.push_back(static_cast<MatchIndex>(start));
            while (!open.empty()) {
                const MatchIndex match = open.back();
                if (seen[match] == 2 || !outside(match)) {
                    open.pop_back();
                } else if (seen[match] == 1) {
                    seen[match] = 2;
                    order.push_back(match);
                    open.pop_back();
                } else {
                    seen[match] = 1;
                    for (const MatchIndex before : waited(match))
                        if (seen[before] == 0) open.push_back(before);
                }
            }
        }
        return order;
    }
    [[nodiscard]] std::vector<MatchIndex> waited(MatchIndex match) const {
        std::vector<MatchIndex> all;
        const Match& node = graph_.matches[match];
        for (const auto side : node.sides) add_waited(graph_, side, all);
        if (node.only_if_second_won) all.push_back(*node.only_if_second_won);
        return all;
    }
    void add_columns() {
        for (const MatchIndex match : in_order()) {
            for (const MatchIndex before : waited(match))
                if (outside(before))
                    column_[match] = std::max<std::uint16_t>(
                        column_[match], static_cast<std::uint16_t>(column_[before] + 1));
            layout_.columns = std::max<std::uint16_t>(
                layout_.columns, static_cast<std::uint16_t>(column_[match] + 1));
        }
    }
    /// The match whose winner comes to that side, when it is drawn.
    [[nodiscard]] std::optional<MatchIndex> child(MatchIndex match, std::size_t side) const {
        const Source& source = graph_.sources[graph_.matches[match].sides[side]];
        if (source.kind != Source::Kind::winner) return std::nullopt;
        const auto from = static_cast<MatchIndex>(source.of);
        return outside(from) ? std::optional{from} : std::nullopt;
    }
    void add_parents() {
        for (std::size_t m = 0; m < graph_.matches.size(); ++m)
            for (std::size_t side = 0; side < 2; ++side)
                if (outside(static_cast<MatchIndex>(m)))
                    if (const auto from = child(static_cast<MatchIndex>(m), side))
                        parent_[*from] = true;
    }

    [[nodiscard]] BracketTree tree_of(MatchIndex root) const {
        BracketTree tree;
        tree.root = root;
        for (const auto& place : graph_.places) {
            const Source& source = graph_.sources[place.source];
            if (source.of != root) continue;
            if (source.kind == Source::Kind::winner) tree.first = place.first;
            if (source.kind == Source::Kind::loser) tree.last = place.last;
        }
        return tree;
    }
    [[nodiscard]] std::vector<MatchIndex> roots() const {
        std::vector<MatchIndex> all;
        for (std::size_t m = 0; m < graph_.matches.size(); ++m)
            if (outside(static_cast<MatchIndex>(m)) && !parent_[m])
                all.push_back(static_cast<MatchIndex>(m));
        std::stable_sort(all.begin(), all.end(), [&](MatchIndex a, MatchIndex b) {
            // 0, no place, becomes the largest number.
            const auto worth = [&](MatchIndex m) { return std::uint16_t(tree_of(m).first - 1); };
            return worth(a) < worth(b);
        });
        return all;
    }

    /// The row of the match; those that lead to it are placed first.
    double place(MatchIndex match) {
        std::array<std::optional<MatchIndex>, 2> from{child(match, 0), child(match, 1)};
        double sum = 0;
        int count = 0;
        for (const auto& each : from)
            if (each) {
                sum += place(*each);
                ++count;
            }
        if (count == 0) {
            sum = layout_.rows + 0.5;
            layout_.rows += 1;
            count = 1;
        }
        const double row = sum / count;
        box_[match] = layout_.boxes.size();
        layout_.boxes.push_back({match, column_[match], row});
        for (std::size_t side = 0; side < 2; ++side)
            if (from[side]) layout_.lines.push_back({box_[*from[side]], box_[match], side == 1});
        return row;
    }

    const Graph& graph_;
    BracketLayout layout_;
    std::vector<std::size_t> box_;
    std::vector<std::uint16_t> column_;
    std::vector<bool> parent_;
};

}  // namespace

BracketLayout layout_of(const Graph& graph) {
    return Drawing{graph}.draw();
}

std::optional<std::size_t> beside(const BracketLayout& layout, std::size_t box, Step step) {
    const BracketBox& here = layout.boxes[box];
    std::optional<std::size_t> best;
    double least = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < layout.boxes.size(); ++i) {
        const BracketBox& there = layout.boxes[i];
        const double across = there.column - here.column;
        const double down = there.row - here.row;
        // The way in the direction of the step, and how far off it.
        const bool level = step == Step::left || step == Step::right;
        const double ahead =
            level ? (step == Step::right ? across : -across) : (step == Step::down ? down : -down);
        const double aside = std::abs(level ? down : across);
        if (ahead <= 0) continue;
        // Sideways the next column counts, however far up or down the nearest match of it is.
        const double far = level ? ahead * static_cast<double>(layout.boxes.size()) + aside
                                 : ahead + aside * static_cast<double>(layout.boxes.size());
        if (far >= least) continue;
        least = far;
        best = i;
    }
    return best;
}

}  // namespace courthand::seats
