// Counts what the program allocates: `new` is replaced by one that counts. Thread-safe.
#pragma once

#include <cstddef>

namespace courthand::bench {

/// Allocations of the whole program so far.
[[nodiscard]] std::size_t allocations() noexcept;

}  // namespace courthand::bench
