// The teams of a division as rows for the screen, and what moving one of them breaks.
#pragma once

#include <QString>
#include <QStringList>
#include <QVariantMap>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "venue/desk_book.h"

namespace courthand::seats {

/// In the order of pools and of play in them, then those without a pool, then those that have left.
/// Rows with key (the name of the team), about (club, seed, team list), pool, mark and state.
[[nodiscard]] std::vector<QVariantMap> entry_rows(const event::TournamentState& state,
                                                  event::DivisionIndex division,
                                                  const venue::DeskBook& desk);

/// What the pools of the second state have against them that those of the first have not, and
/// "mended: …" for the reverse.
[[nodiscard]] QStringList broken_between(const event::TournamentState& before,
                                         const event::TournamentState& after,
                                         event::DivisionIndex division);
/// Everything that the pools of a division have against them.
[[nodiscard]] QStringList broken_in(const event::TournamentState& state,
                                    event::DivisionIndex division);
/// What no draw of the teams that stay into these pools could avoid.
[[nodiscard]] QStringList broken_in_any_draw(const event::TournamentState& state,
                                             event::DivisionIndex division);

}  // namespace courthand::seats
