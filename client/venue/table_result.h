// What the tables have recorded of the tournament's matches: a record that a table keeps, joined
// with the match by the fact that opened it.
#pragma once

#include <optional>
#include <vector>

#include "courthand/event/state.h"
#include "venue/desk_book.h"

namespace courthand::venue {

/// A record as far as it has come, with the scores in the order of the match's sides.
struct TableResult {
    std::vector<event::SetScore> sets;
    event::HeadHash head;
    bool decided = false;
};

/// Nothing when no table keeps the match, or nothing was recorded yet.
[[nodiscard]] std::optional<TableResult> table_result(const event::TournamentState& state,
                                                      event::MatchRef match, const DeskBook& book);

/// What the desk says when it takes the result over from the table.
[[nodiscard]] event::ResultConfirmed confirmation(const event::TournamentState& state,
                                                  event::MatchRef match,
                                                  const TableResult& recorded);

/// A match that a table has finished and nobody has confirmed.
[[nodiscard]] bool to_confirm(const event::TournamentState& state, event::MatchRef match,
                              const DeskBook& book);

}  // namespace courthand::venue
