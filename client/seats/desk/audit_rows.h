// The log of the venue as rows for the screen: what was done, by whom, why, and what was refused.
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/desk_book.h"
#include "venue/event_book.h"
#include "venue/match_names.h"

namespace courthand::seats {

/// What names the things of a line.
struct AuditWords {
    const venue::DeskBook& desk;
    const venue::EventBook& event;
    const venue::MatchNames& names;
};

/// Rows with number, what, who, about, time, mark and state. An act in the record of the tournament
/// is told by the words of its facts, with the reason that stands beside it.
[[nodiscard]] std::vector<QVariantMap> audit_rows(const std::vector<venue::AuditListed>& lines,
                                                  const AuditWords& words);

}  // namespace courthand::seats
