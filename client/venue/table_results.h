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
    std::vector<event::SetScore> sets;  ///< the last one may be running
    std::size_t ended = 0;              ///< so many of them are over
    event::HeadHash head;
    bool decided = false;
    bool forfeited = false;    ///< lost by default: awarded, not confirmed as played
    SignerSet signed_by;       ///< A is the first side of the match
    bool protested = false;    ///< a team has announced a protest
    std::string left_to_desk;  ///< why its signatures do not confirm it; empty: they do
    friend bool operator==(const TableResult&, const TableResult&) = default;
};

/// The results of a desk's book by their records.
class TableResults {
  public:
    TableResults() = default;
    explicit TableResults(const DeskBook& book);

    /// Nothing when no table keeps the match, when nothing was recorded yet, or when the record is
    /// of other teams than the match has now.
    [[nodiscard]] std::optional<TableResult> of(const event::TournamentState& state,
                                                event::MatchRef match) const;
    /// A match that a table has finished by play and nobody has confirmed.
    [[nodiscard]] bool to_confirm(const event::TournamentState& state, event::MatchRef match) const;
    /// A match that was lost by default at the table and nobody has awarded.
    [[nodiscard]] bool to_award(const event::TournamentState& state, event::MatchRef match) const;
    /// What the desk says when it takes the result over from the table; nothing when the table has
    /// not finished it by play.
    [[nodiscard]] std::optional<event::ResultConfirmed> confirmation(
        const event::TournamentState& state, event::MatchRef match) const;

  private:
    struct Row {
        ResultListed result;
        std::string first;  ///< team that the desk named first
        std::string second;
    };
    std::unordered_map<Id, Row> rows_;
};

}  // namespace courthand::venue
