// What waits for the desk: one list, worst first.
#pragma once

#include <QString>
#include <QVariantMap>
#include <vector>

#include "venue/board.h"
#include "venue/desk_book.h"
#include "venue_words.h"

namespace courthand::seats {

class EventDesk;

/// What the desk can do about a row: a word and what it is about.
struct Act {
    QString name;
    QVariant subject;
};

[[nodiscard]] QVariantMap work_row(const QString& key, Mark mark, const QString& title,
                                   const QString& detail, const Act& act = {});

/// Rows with key, mark, word, title, detail, and what the desk can do: `act` is one of "court",
/// "code", "roster", "fork", "take-over", "withdraw" or empty, `subject` the match, court or alert
/// it is about; of a take-over a map of match and device, of a withdrawal one of device and name.
/// What waits in the tournament's record stands among them (event_work.h).
[[nodiscard]] std::vector<QVariantMap> work_rows(const venue::DeskBook& book,
                                                 const venue::Board& board, const EventDesk& event);

}  // namespace courthand::seats
