// The next version of the plan, with what has changed since the published one.
#pragma once

#include <QStringList>

#include "act_preview.h"
#include "courthand/event/state.h"

namespace courthand::seats {

/// One line for each match whose court or time differs from the published plan; of the first
/// version, how much it has.
[[nodiscard]] QStringList plan_news(const event::TournamentState& state);

/// Publishes what stands in the plan now.
[[nodiscard]] ActWish publication(const event::TournamentState& state);

}  // namespace courthand::seats
