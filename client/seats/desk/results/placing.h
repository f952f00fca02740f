// What the desk says when it gives a match a court and a time. Pure.
#pragma once

#include <QString>
#include <variant>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::seats {

/// `court` is a number; `at` is "9:30" on the first day of the tournament, a moment such as
/// "2026-11-28T09:30", or empty: it follows the match before. An empty court takes the match off
/// its court. A court that nobody has opened yet is opened. Otherwise what is wrong, with the cure.
[[nodiscard]] std::variant<std::vector<event::Fact>, QString> placing(
    const event::TournamentState& state, const QString& match, const QString& court,
    const QString& at);

/// The time of a placement as `placing` reads it: "9:30" on the first day of the tournament, else
/// the whole moment; empty: it follows the match before.
[[nodiscard]] QString typed_time(const event::TournamentState& state,
                                 const event::Placement& placement);

}  // namespace courthand::seats
