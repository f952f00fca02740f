// What the ruling about a verdict would change in the standings of the pool: the places as they
// are, and as they would be with the remedy applied. Pure.
#pragma once

#include <QString>
#include <QVariantMap>
#include <vector>

#include "courthand/event/state.h"
#include "venue/board.h"

namespace courthand::seats {

struct RuledStandings {
    /// What is compared, in a sentence: how the match would have ended. Empty: no verdict of a pool
    /// match whose remedy changes the score.
    QString words;
    /// As of `places_without`; none while the match is not over, with the remedy or without.
    std::vector<QVariantMap> rows;
    friend bool operator==(const RuledStandings&, const RuledStandings&) = default;
};

/// A match counts as it is confirmed, or else, once it is over, as it ended at its court: so
/// nothing is said of a set that has gone by. Where the remedy takes the end back, the match is
/// open.
[[nodiscard]] RuledStandings standings_if_ruled(const event::TournamentState& state,
                                                const venue::CourtOnBoard& court,
                                                const venue::Alert& alert);

}  // namespace courthand::seats
