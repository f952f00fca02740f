// What of the tournament waits for the desk, as rows of the one work list (work_list.h).
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/event_book.h"
#include "venue/link.h"
#include "venue/table_results.h"

namespace courthand::seats {

/// What waits in the record itself, whatever the tables tell: put in words once for each record.
struct RecordWork {
    using Rows = std::vector<QVariantMap>;
    Rows waiting;                    ///< places and matches that want a person
    std::vector<Rows> of_divisions;  ///< decisions, and teams without a pool
    Rows clashes;                    ///< matches with somebody who cannot work them
    bool over = false;               ///< all is played and confirmed
};
[[nodiscard]] RecordWork record_work(const venue::EventBook& book);

/// `act` is one of "result" (subject: a match), "decide" (a pool: "U16|A"), "entries" or "plan" (a
/// division). A record that cannot be trusted to its end is told first. `work` is of that book.
[[nodiscard]] std::vector<QVariantMap> event_work_rows(const venue::EventBook& book,
                                                       const RecordWork& work,
                                                       const venue::Link& link,
                                                       const venue::TableResults& tables);

}  // namespace courthand::seats
