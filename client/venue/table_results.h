// What the tables have recorded of the tournament's matches: a record that a table keeps, joined
// with the match by the fact that opened it.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
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

/// The results of a desk's book by their records.
class TableResults {
  public:
    TableResults() = default;
    explicit TableResults(const DeskBook& book);

    /// Nothing when no table keeps the match, or nothing was recorded yet.
    [[nodiscard]] std::optional<TableResult> of(const event::TournamentState& state,
                                                event::MatchRef match) const;
    /// A match that a table has finished and nobody has confirmed.
    [[nodiscard]] bool to_confirm(const event::TournamentState& state, event::MatchRef match) const;
    /// What the desk says when it takes the result over from the table; nothing as for `of`.
    [[nodiscard]] std::optional<event::ResultConfirmed> confirmation(
        const event::TournamentState& state, event::MatchRef match) const;

  private:
    struct Row {
        ResultListed result;
        std::string first;  ///< team that the desk named first
    };
    std::unordered_map<Id, Row> rows_;
};

}  // namespace courthand::venue
