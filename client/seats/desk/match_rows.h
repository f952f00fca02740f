// The matches of the day as rows for the screen. While points are played a telling of the book
// comes with every one of them: only what changed is put in words anew.
#pragma once

#include <QString>
#include <QVariantMap>
#include <optional>
#include <string>
#include <vector>

#include "venue/board.h"
#include "venue/desk_book.h"
#include "venue/match_names.h"

namespace courthand::seats {

/// Not thread-safe.
class MatchRows {
  public:
    /// One for each match, in the order of the book.
    [[nodiscard]] std::vector<QVariantMap> of(const venue::DeskBook& book,
                                              const venue::Board& board,
                                              const venue::MatchNames& names);

  private:
    /// A row and what it was made of.
    struct Made {
        venue::MatchPlanned match;
        std::optional<venue::ResultListed> result;
        QString line_ups;
        std::optional<std::string> name;  ///< of the tournament's record
        QVariantMap row;
    };
    std::vector<Made> made_;  ///< by place in the book
};

}  // namespace courthand::seats
