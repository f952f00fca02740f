// What waits for the desk: one list, worst first.
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/board.h"
#include "venue/desk_book.h"

namespace courthand::seats {

/// Rows with key, mark, word, title, detail, and what the desk can do: `act` is one of "court",
/// "code", "roster", "fork", "take-over", "withdraw" or empty, `subject` the match, court or alert
/// it is about; of a take-over a map of match and device, of a withdrawal one of device and name.
[[nodiscard]] std::vector<QVariantMap> work_rows(const venue::DeskBook& book,
                                                 const venue::Board& board);

}  // namespace courthand::seats
