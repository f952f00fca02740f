// Alerts as messages: for the board, and as the body of a stored life entry.
#pragma once

#include <optional>

#include "courthand/v1/venue.pb.h"
#include "server/alerts/alert_book.h"

namespace courthand::server::venue {

/// Everything about the alert.
[[nodiscard]] v1::Alert to_message(const alerts::Alert& alert);

/// The condition an alert message was made of; nothing when its code is of a newer program.
[[nodiscard]] std::optional<alerts::Condition> condition_of(const v1::Alert& message,
                                                            const std::string& kind_word);

[[nodiscard]] std::int64_t microseconds(std::chrono::system_clock::time_point time);
[[nodiscard]] std::chrono::system_clock::time_point moment(std::int64_t microseconds);

}  // namespace courthand::server::venue
