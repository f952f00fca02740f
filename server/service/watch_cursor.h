// The opaque cursor of a watch: which feed, and how far.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "server/domain/ids.h"

namespace courthand::server::service {

struct WatchCursor {
    Uuid generation;  ///< of the feed; another one makes the position worthless
    FeedPosition position = 0;
    friend bool operator==(const WatchCursor&, const WatchCursor&) = default;
};

[[nodiscard]] std::string to_bytes(const WatchCursor& cursor);
/// Nothing when the bytes were not made by `to_bytes`.
[[nodiscard]] std::optional<WatchCursor> watch_cursor(std::string_view bytes);

}  // namespace courthand::server::service
