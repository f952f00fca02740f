// What of the tournament waits for the desk, as rows of the one work list (work_list.h).
#pragma once

#include <QVariantMap>
#include <vector>

#include "table_results.h"
#include "venue/event_book.h"

namespace courthand::seats {

/// `act` is one of "result" (subject: a match), "decide" (a pool: "U16/A"), "entries", "bracket" or
/// "plan" (a division).
[[nodiscard]] std::vector<QVariantMap> event_work_rows(const venue::EventBook& book,
                                                       const TableResults& tables);

}  // namespace courthand::seats
