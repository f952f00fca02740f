// The drawn bracket of a division as rows for the screen.
#pragma once

#include <QVariantMap>
#include <vector>

#include "bracket_layout.h"
#include "courthand/event/state.h"
#include "venue/table_results.h"

namespace courthand::seats {

/// A box with key (name of the match), column, row, about, first, second, firstKnown, secondKnown,
/// firstSets, secondSets, winner (0: nobody yet, 1 or 2), mark, state and spoken.
[[nodiscard]] QVariantMap bracket_box(const event::TournamentState& state, event::MatchRef match,
                                      const BracketBox& box, const venue::TableResults& tables);
/// A line with key, fromColumn, fromRow, toColumn, toRow and second.
[[nodiscard]] std::vector<QVariantMap> bracket_lines(const event::Division& division,
                                                     const BracketLayout& layout);
/// A heading with key, row and title.
[[nodiscard]] std::vector<QVariantMap> bracket_headings(const event::Division& division,
                                                        const BracketLayout& layout);

}  // namespace courthand::seats
