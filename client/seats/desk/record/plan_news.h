// The next version of the plan, with what has changed since the published one.
#pragma once

#include <QStringList>

#include "act_preview.h"
#include "courthand/event/state.h"
#include "venue/event_book.h"

namespace courthand::seats {

/// One line for each match whose court or time differs from the published plan, with the fact that
/// changed it and the reason beside that, if any; of the first version, how much it has.
[[nodiscard]] QStringList plan_news(const event::TournamentState& state,
                                    const venue::EventBook::Words& words);

/// Publishes what stands in the plan now. The book outlives the wish.
[[nodiscard]] ActWish publication(const venue::EventBook& book);

}  // namespace courthand::seats
