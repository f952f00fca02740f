// What this process has flushed to the disk. Who links it has its own `fsync` in the place of the
// library's, also for SQLite.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace courthand::client {

/// Names of the files flushed since the last call, in order.
[[nodiscard]] std::vector<std::string> take_synced_files();
/// Durable commits of a journal since the last call: each flushes the write-ahead log once.
[[nodiscard]] std::size_t take_commits();

}  // namespace courthand::client
