// Tables whose entries wait and are handed over as fast as the server takes them, each table with
// one push under way, as a table's program has.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "courthand/v1/sync.pb.h"
#include "server/testing/enrolled_device.h"

namespace courthand::bench {

struct BacklogTable {
    server::testing::EnrolledDevice device;
    /// The next push, nothing when all is sent; called on the threads of gRPC, never twice at once.
    std::function<std::optional<v1::PushRequest>()> next;
};

struct Drained {
    double seconds = 0;  ///< from the first push to the last answer
    std::uint64_t entries = 0;
    std::uint64_t turned_away = 0;  ///< pushes that the server asked to send again later
};

/// Connects the tables first, then drains them all. Throws std::runtime_error when an entry is not
/// appended, or when the end is not reached within an hour.
[[nodiscard]] Drained drain(const std::string& address, const std::vector<BacklogTable>& tables);

}  // namespace courthand::bench
