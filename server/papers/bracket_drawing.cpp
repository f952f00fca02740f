#include "server/papers/bracket_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "server/papers/bracket_trees.h"
#include "server/papers/match_words.h"

namespace courthand::server::papers {
namespace {

using event::DivisionIndex;
using event::TournamentState;

/// A match takes its two rows, its name above them and a gap.
constexpr double row_height = 3.55;
constexpr double name_height = 2.7;
constexpr double leaf_height = 2 * row_height + name_height;  // 16 of them, and a title, to a page
constexpr double widest_column = 62;
constexpr double gap_width = 6;
constexpr double set_width = 4.6;
constexpr double title_height = 6;

struct Drawing {
    Paper& paper;
    const TournamentState& state;
    DivisionIndex index;
    bool days = false;
    double left = 0;    ///< of the first round
    double column = 0;  ///< width with the gap

    [[nodiscard]] double x_of(std::size_t round) const {
        return left + static_cast<double>(round - 1) * column;
    }
};

/// A box for one side: who, and the points of each set.
void draw_side(const Drawing& on, const Box& box, event::MatchRef ref, std::size_t which) {
    const event::MatchState& match = on.state.match(ref);
    const auto& result = match.result;
    const bool counts = result && match.result_counts;
    const auto self = which == 0 ? tournament::Winner::first : tournament::Winner::second;
    const bool won = counts && match.winner == self;
    const bool known = on.state.side(ref, which).is_team();
    double right = box.x + box.width - 1;
    if (counts)
        for (std::size_t s = result->sets.size(); s-- > 0;) {
            const event::SetScore set = result->sets[s];
            const unsigned own = which == 0 ? set.first : set.second;
            const unsigned other = which == 0 ? set.second : set.first;
            right -= set_width;
            on.paper.write({right, box.y, set_width, box.height}, fmt::format("{}", own),
                           {6.5, own > other, Align::right});
        }
    on.paper.write({box.x + 1, box.y, right - box.x - 1.5, box.height},
                   side_words(on.state, ref, which), {7.5, won, Align::left, known ? 0 : 0.4});
}

void draw_match(const Drawing& on, double x, double middle, event::MatchIndex match) {
    const event::MatchRef ref{on.index, match};
    const double width = on.column - gap_width;
    const double top = middle - row_height;
    std::string name = on.state.node(ref).name;
    const event::MatchState& played = on.state.match(ref);
    if (played.result && played.result_counts && played.result->award)
        name += ": " + origin_words(*played.result);
    else if (const std::string place = place_words(played, on.days);
             !place.empty() && !played.result)
        name += ": " + place;
    on.paper.write({x, top - name_height, width, name_height}, name,
                   {5.5, false, Align::left, 0.25});
    for (std::size_t side = 0; side < 2; ++side)
        draw_side(on, {x, top + static_cast<double>(side) * row_height, width, row_height}, ref,
                  side);
    on.paper.line(x, middle, x + width, middle, 0.1);
    on.paper.frame({x, top, width, 2 * row_height}, 0.25);
}

/// Draws a tree whose leaves begin at `y`; answers the middle of its root.
double draw_tree(const Drawing& on, const TreeNode& node, std::size_t round, double& y) {
    const double x = on.x_of(round);
    if (node.before.empty()) {
        const double middle = y + name_height + row_height;
        y += leaf_height;
        draw_match(on, x, middle, node.match);
        return middle;
    }
    double sum = 0;
    std::vector<double> middles;
    for (const TreeNode& before : node.before) {
        const double middle = draw_tree(on, before, round - 1, y);
        middles.push_back(middle);
        sum += middle;
    }
    const double middle = sum / static_cast<double>(middles.size());
    const double joint = x - gap_width / 2;
    for (const double from : middles) {
        on.paper.line(x - gap_width, from, joint, from);
        on.paper.line(joint, from, joint, middle);
    }
    on.paper.line(joint, middle, x, middle);
    draw_match(on, x, middle, node.match);
    return middle;
}

std::string title_of(const event::Division& division) {
    return division_words(division) + ", bracket";
}

}  // namespace

void draw_brackets(Paper& paper, const TournamentState& state, DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    double y = 0;
    bool begun = false;
    for (const TreePiece& piece : tree_pieces(division)) {
        const auto leaves = static_cast<double>(leaves_of(piece.root));
        const double needed = title_height + leaves * leaf_height;
        if (!begun || y + needed > paper.room().y + paper.room().height) {
            paper.turn_to(title_of(division), Paper::Turn::across);
            begun = true;
            y = paper.room().y;
        }
        const Box room = paper.room();
        const std::size_t rounds = rounds_of(piece.root);
        Drawing on{paper, state, index};
        on.days = state.opened && state.opened->first_day != state.opened->last_day;
        on.left = room.x;
        on.column = std::min(widest_column, (room.width + gap_width) / static_cast<double>(rounds));
        paper.write({room.x, y, room.width, title_height - 1}, piece.title, {9, true});
        y += title_height;
        draw_tree(on, piece.root, rounds, y);
        y += 3;
    }
}

}  // namespace courthand::server::papers
