// How often this thread has parsed, converted and hashed an entry: an entry is read once in a
// process, and tests count that it is.
#pragma once

#include <cstdint>

namespace courthand::wire {

struct WorkDone {
    std::uint64_t parses = 0;       ///< bytes to message
    std::uint64_t conversions = 0;  ///< message to record
    std::uint64_t hashes = 0;
    friend constexpr bool operator==(const WorkDone&, const WorkDone&) = default;
};

/// Since the thread began.
[[nodiscard]] inline WorkDone& work_done() noexcept {
    thread_local WorkDone done;
    return done;
}

}  // namespace courthand::wire
