// What a draw or a bracket makes, told before it is made.
#pragma once

#include <QStringList>

#include "courthand/event/state.h"

namespace courthand::seats {

/// "Pool A: Harbour Lights, Boathouse, …" for each pool, then what the draw breaks and what of it
/// no draw could avoid, and what the orders of play hold and lack.
[[nodiscard]] QStringList pools_made(const event::TournamentState& after,
                                     event::DivisionIndex division);

/// Which teams have no seed where the seeds are what counts, and how to give them one; none: empty.
[[nodiscard]] QStringList unseeded_words(const event::TournamentState& state,
                                         event::DivisionIndex division);

/// How many matches were added, and the sides of those that begin.
[[nodiscard]] QStringList matches_made(const event::TournamentState& before,
                                       const event::TournamentState& after,
                                       event::DivisionIndex division);

}  // namespace courthand::seats
