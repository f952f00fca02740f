// A desk that acts by itself: it confirms what the tables have finished, and draws lots where the
// chain of a pool ends. With it a simulated tournament goes on to its final places.
#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/sim/dice.h"
#include "venue/desk_book.h"

namespace courthand::client {

/// What such a desk says next: results that wait for it, then decisions that pools need. In the
/// order of the divisions; empty when nothing waits. What a person has reopened is left to people
/// until the table writes on.
[[nodiscard]] std::vector<event::Fact> next_said(const event::TournamentState& state,
                                                 const venue::DeskBook& book, sim::Dice& dice);

struct SimulatedDeskOptions {
    std::filesystem::path folder;  ///< of a device enrolled as a desk
    std::string server;            ///< empty: as at enrolment
    double pause = 1.0;            ///< seconds between two looks
    std::uint64_t seed = 1;
};

/// Returns when stopped. A sentence when it could not go on. `say` gets lines for a log, on the
/// calling thread.
[[nodiscard]] std::string run_simulated_desk(const SimulatedDeskOptions& options,
                                             const std::atomic<bool>& stop,
                                             const std::function<void(const std::string&)>& say);

}  // namespace courthand::client
