// The matches of a division with their results, as rows for the screen.
#pragma once

#include <QString>
#include <QStringList>
#include <QVariantMap>
#include <cstdint>
#include <vector>

#include "courthand/event/state.h"
#include "venue/table_results.h"
#include "venue_words.h"

namespace courthand::seats {

/// How far a match is.
enum class ResultStage : std::uint8_t {
    sides_open,
    not_played,  ///< a bye, or a second final that is not needed
    to_play,
    in_play,
    to_confirm,
    doubtful,  ///< its result belongs to other teams
    confirmed,
};

[[nodiscard]] ResultStage result_stage(const event::TournamentState& state, event::MatchRef match,
                                       const venue::TableResults& tables);
[[nodiscard]] MarkedWord result_words(const event::TournamentState& state, event::MatchRef match,
                                      const venue::TableResults& tables);
/// The name of the team, or where the side comes from.
[[nodiscard]] QString side_words(const event::TournamentState& state, event::MatchRef match,
                                 std::size_t which);
/// "pool A", "round 2", "final".
[[nodiscard]] QString stage_of_graph(const event::TournamentState& state, event::MatchRef match);
/// "2 : 1", empty when nothing is known.
[[nodiscard]] QString sets_of(const std::vector<event::SetScore>& sets);
/// The sets of the result that counts, else of the table's record.
[[nodiscard]] std::vector<event::SetScore> known_sets(const event::TournamentState& state,
                                                      event::MatchRef match,
                                                      const venue::TableResults& tables);
/// Of these, the ones that are over: a running set is nobody's yet.
[[nodiscard]] std::vector<event::SetScore> ended_sets(const event::TournamentState& state,
                                                      event::MatchRef match,
                                                      const venue::TableResults& tables);
/// Of a match that a table has finished where signatures confirm results: who has not signed, or
/// what else leaves it to the desk. Empty of others.
[[nodiscard]] QString signature_words(const event::TournamentState& state, event::MatchRef match,
                                      const venue::TableResults& tables);
/// "Court 3, 14:30", in an event of several days "Court 3, 2026-11-29 14:30"; empty when it has no
/// place.
[[nodiscard]] QString place_of_match(const event::TournamentState& state, event::MatchRef match);

/// A row with key (the name of the match), about, first, second, known (both sides), sets, scores,
/// place, stage, mark and state.
[[nodiscard]] QVariantMap result_row(const event::TournamentState& state, event::MatchRef match,
                                     const venue::TableResults& tables);

}  // namespace courthand::seats
