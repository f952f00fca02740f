// Bounds of the calls by which desks act in the tournament's record and watch it, each with its
// reason. Those of the record itself are in courthand/event/limits.h.
#pragma once

#include <cstddef>

#include "wire/event_entry.h"
#include "wire/message_limits.h"

namespace courthand::wire {

/// Facts of one act: the matches of the largest bracket with their places.
inline constexpr std::size_t most_act_facts = 1024;
/// One act: so many ordinary facts with a paragraph beside each are under 1 MiB.
inline constexpr std::size_t most_act_bytes = 2 * 1024 * 1024;
/// Facts of one act that take back others: each folds the whole record anew.
inline constexpr std::size_t most_taken_back = 64;
/// Facts whose words are erased by one request.
inline constexpr std::size_t most_erased_facts = 1024;
/// Facts of one response to a watch, and erased ones that it tells of.
inline constexpr std::size_t most_watched_facts = 256;
inline constexpr std::size_t most_erased_told = 1024;
/// A response to a watch takes no further fact beyond this: ordinary ones are under 100 KiB
/// together.
inline constexpr std::size_t enough_watched_bytes = 1024 * 1024;
/// Findings of one act that are told: nobody puts more right in one go.
inline constexpr std::size_t most_findings_told = 100;
/// Effects of an act that are told, of each kind: a person reads a few and the count.
inline constexpr std::size_t most_effects_told = 1000;

static_assert(enough_watched_bytes + most_event_entry_bytes + most_remark_bytes < 2 * 1024 * 1024,
              "a response stays well under gRPC's default of 4 MiB");

}  // namespace courthand::wire
