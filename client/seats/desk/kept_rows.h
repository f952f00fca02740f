// Rows about matches of the record. While points are played the record stays as it is, and one
// table at a time tells another score: only the row of that match is put in words anew.
#pragma once

#include <QVariantMap>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "courthand/event/state.h"
#include "venue/table_results.h"

namespace courthand::seats {

/// Not thread-safe.
class KeptRows {
  public:
    using State = std::shared_ptr<const event::TournamentState>;
    /// The row of the match at a place in the list; of nothing but the state and what a table has
    /// recorded of this match.
    using Make = std::function<QVariantMap(std::size_t)>;

    /// One for each match, in the order of the list.
    [[nodiscard]] std::vector<QVariantMap> of(const State& state,
                                              const std::vector<event::MatchRef>& matches,
                                              const venue::TableResults& tables, const Make& make);

  private:
    /// A row and what it was made of.
    struct Made {
        event::MatchRef match;
        std::optional<venue::TableResult> recorded;
        QVariantMap row;
    };
    State state_;             ///< of which the rows are
    std::vector<Made> made_;  ///< by place in the list
};

}  // namespace courthand::seats
