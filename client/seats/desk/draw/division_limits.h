// The limits of a division that a person writes as numbers: length and rest, load, lateness. Pure.
#pragma once

#include <QString>
#include <QVariantMap>

#include "courthand/event/setup.h"

namespace courthand::seats {

/// Takes lasts, rest, inRow, aDay, latePoints, lateSet, lateMatch and crewLate as they were typed;
/// what is empty stays as it is, and 0 is no limit. Empty, or which of them is no number it could
/// be, with the cure; then `rules` may have some of them.
[[nodiscard]] QString take_limits(const QVariantMap& said, event::DivisionOpened& rules);

/// "minutes of a match 40, minutes of rest 20, …"; of those that are set.
[[nodiscard]] QString limit_words(const event::DivisionOpened& rules);

}  // namespace courthand::seats
