// What of the tournament waits for the desk, as rows of the one work list (work_list.h).
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/event_book.h"
#include "venue/table_results.h"

namespace courthand::seats {

/// `act` is one of "result" (subject: a match), "decide" (a pool: "U16/A"), "entries", "bracket" or
/// "plan" (a division).
[[nodiscard]] std::vector<QVariantMap> event_work_rows(const venue::EventBook& book,
                                                       const venue::TableResults& tables);

}  // namespace courthand::seats
