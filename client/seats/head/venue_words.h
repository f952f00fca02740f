// Words and marks for what the venue tells: stages, severities, ages. Shared by head and desk.
#pragma once

#include <QColor>
#include <QString>
#include <chrono>

#include "venue/board.h"
#include "venue/link.h"
#include "venue/match_names.h"

namespace courthand::seats {

/// The shapes of the design module's StateMark, in its order.
enum class Mark { fault, caution, notice, good, quiet };

struct MarkedWord {
    Mark mark = Mark::quiet;
    QString word;
};

[[nodiscard]] Mark mark_of(venue::LinkState link);

/// Short enough to stand large on a wall board.
[[nodiscard]] MarkedWord stage_words(const venue::CourtOnBoard& court);
[[nodiscard]] MarkedWord severity_words(Severity severity);

/// "0:42", from ten minutes on "12 min", then "1 h 05 min"; never negative.
[[nodiscard]] QString age_words(std::chrono::milliseconds age);
/// "2 min", "40 s", "1 h 05 min": for running text.
[[nodiscard]] QString span_words(std::chrono::milliseconds span);

[[nodiscard]] QColor colour_of(venue::Colour colour);
[[nodiscard]] QString number_of(Jersey jersey);
[[nodiscard]] QString numeral_of(Position position);

/// "C1"; "match 41" by the number of its table while the record of the tournament has no such
/// match; empty when it has no number either.
[[nodiscard]] QString match_called(const venue::MatchNames& names, const venue::Id& record,
                                   int number);
/// The same of what the board tells: the server knows the record.
[[nodiscard]] QString match_called(const venue::CourtOnBoard& court);
[[nodiscard]] QString match_called(const venue::Alert& alert);
[[nodiscard]] QString court_words(venue::CourtNumber court);
/// "18 : 16"
[[nodiscard]] QString score_words(Score score);

/// "L 21 for 5", "L off (21, 22)", or nothing when the team has no libero.
[[nodiscard]] QString libero_words(const venue::TeamOnBoard& team);

/// "C1", or "earlier match C1" when another one is on the court now; by its number "match 12",
/// "earlier match 12"; empty when it concerns no match.
[[nodiscard]] QString match_words(const venue::Alert& alert, bool left_behind);
/// "C1 · Mill Lane · set 2, 18 : 16": match, team and score when the alert arose.
[[nodiscard]] QString place_words(const venue::Alert& alert, bool left_behind);
/// The code of an alert as words: the codes are plain English, "libero-front-row".
[[nodiscard]] QString alert_title(const venue::Alert& alert);

[[nodiscard]] inline QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

}  // namespace courthand::seats
