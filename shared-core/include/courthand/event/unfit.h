// A fact that cannot be kept because of what stands in one of its fields, told to people.
#pragma once

#include <optional>

#include "courthand/event/fact.h"
#include "courthand/tournament/fault.h"

namespace courthand::event {

/// What `out_of_bounds` (bounds.h) finds, as a sentence: the kind of fact, which field of it is
/// wrong and how, and the cure. Nothing when the fact can be kept.
[[nodiscard]] std::optional<tournament::Fault> unfit(const Fact& fact);

}  // namespace courthand::event
