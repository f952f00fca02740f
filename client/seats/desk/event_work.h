// What of the tournament waits for the desk, as rows of the one work list (work_list.h).
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/event_book.h"
#include "venue/link.h"
#include "venue/table_results.h"

namespace courthand::seats {

/// `act` is one of "result" (subject: a match), "decide" (a pool: "U16|A"), "entries" or "plan" (a
/// division). A record that cannot be trusted to its end is told first.
[[nodiscard]] std::vector<QVariantMap> event_work_rows(const venue::EventBook& book,
                                                       const venue::Link& link,
                                                       const venue::TableResults& tables);

}  // namespace courthand::seats
