// The desk's book told in words: one map for each row of a list on the screen.
#pragma once

#include <QString>
#include <QVariantMap>
#include <vector>

#include "venue/board.h"
#include "venue/desk_book.h"
#include "venue_words.h"

namespace courthand::seats {

/// How the line-ups of the set on a court stand; nothing without a card or before its first set.
[[nodiscard]] QString line_up_words(const venue::CourtOnBoard* card);
[[nodiscard]] MarkedWord status_words(venue::MatchStatus status);
[[nodiscard]] QString seat_words(venue::Seat seat);
/// "Harbour Lights – Mill Lane"
[[nodiscard]] QString match_words(const venue::MatchPlanned& match);
/// "25:21 18:16": the sets begun, the team named first first.
[[nodiscard]] QString sets_words(const venue::ResultListed& result);

[[nodiscard]] std::vector<QVariantMap> court_rows(const venue::DeskBook& book,
                                                  const venue::Board& board);
[[nodiscard]] std::vector<QVariantMap> device_rows(const venue::DeskBook& book);
[[nodiscard]] std::vector<QVariantMap> team_rows(const venue::DeskBook& book);

}  // namespace courthand::seats
