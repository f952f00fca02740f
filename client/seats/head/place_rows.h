// The final places of a division as rows for the screen, and in a sentence how far the event is
// from its end. Whether something is over is for the core to say (courthand/event/ending.h).
#pragma once

#include <QString>
#include <QStringList>
#include <QVariantMap>
#include <vector>

#include "courthand/event/ending.h"
#include "venue_words.h"

namespace courthand::seats {

/// "1", "5–8".
[[nodiscard]] QString place_number(const event::PlaceHeld& place);

/// What place it is, whatever comes before it or is made beside it: by its pool and its number, or
/// by the match that gives it.
[[nodiscard]] QString place_key(const event::TournamentState& state, event::DivisionIndex division,
                                const event::PlaceHeld& place);

/// Rows with key, place, name, detail (club, pool, or what it waits for), held, mark and state;
/// after the places of `end` the teams that have left.
[[nodiscard]] std::vector<QVariantMap> place_rows(const event::TournamentState& state,
                                                  event::DivisionIndex division,
                                                  const event::DivisionEnd& end);

/// "Every match of U16 is confirmed, places stand."
[[nodiscard]] MarkedWord division_ending(const event::TournamentState& state,
                                         event::DivisionIndex division,
                                         const event::DivisionEnd& end);
/// "Every match of the event is confirmed, places stand." Otherwise what each division lacks.
[[nodiscard]] MarkedWord event_ending(const event::TournamentState& state);

}  // namespace courthand::seats
