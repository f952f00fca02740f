// A table that plays by itself: real journal, real sync, real rules, invented play.
//
// Runs on a thread of its caller until told to stop.
#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>

namespace courthand::client {

struct SimulatedTableOptions {
    std::filesystem::path folder;
    std::string server;  ///< empty: as at enrolment
    double pace = 2.0;   ///< seconds a rally takes; 0: as fast as the disk
    std::uint64_t seed = 1;
    bool waits_for_desk = false;  ///< opens no match by itself: plays what the desk has planned
    bool signs = false;           ///< captains and officials sign each result
    std::uint64_t rallies = 0;    ///< stop after so many, once all is sent; 0: go on for ever
    std::string profile = "international-2025";  ///< of matches the table opens by itself
};

/// Returns when stopped, or when its rallies are played and everything is sent. A sentence when it
/// could not go on. `say` gets lines for a log, on the calling thread.
[[nodiscard]] std::string run_simulated_table(const SimulatedTableOptions& options,
                                              const std::atomic<bool>& stop,
                                              const std::function<void(const std::string&)>& say);

}  // namespace courthand::client
