// The officials and workers of the event, and their crews, as rows for the screen.
#pragma once

#include <QVariantMap>
#include <vector>

#include "venue/event_book.h"

namespace courthand::seats {

/// Between the kind and the number or name in the key of a row.
inline constexpr QChar official_separator = QLatin1Char('|');

/// Rows with key ("person|7", "crew|Blue"; "left|7": off the list, still in words), name, about
/// (role, team, conflicts or persons), work (the matches), mark and state (conflicts of interest,
/// clashes).
[[nodiscard]] std::vector<QVariantMap> official_rows(const venue::EventBook& book);

}  // namespace courthand::seats
