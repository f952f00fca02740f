// Whether all is saved and sent, who writes, and what a person must do about it, in words.
#pragma once

#include <QCoreApplication>
#include <QString>

#include "session/match_session.h"

namespace courthand::client {

struct Saving {
    Q_DECLARE_TR_FUNCTIONS(TableSeat)

  public:
    /// In the order of TableSeat.SyncMark.
    enum class Mark : int { all_sent, on_its_way, needs_person };

    SyncStatus sync;
    Writing writing;

    [[nodiscard]] QString words() const;
    [[nodiscard]] Mark mark() const;
    /// What a person must know or do about entries that are not in the record; empty: nothing.
    [[nodiscard]] QString help() const;
    /// Why the server could not be reached or did not take an entry, whether it matters now or not.
    [[nodiscard]] QString error() const;
    /// Why this device can only practise, with the cure; empty: it is enrolled.
    [[nodiscard]] QString not_enrolled() const { return QString::fromStdString(sync.not_enrolled); }
    /// Another device writes now; what is recorded here is kept beside the record.
    [[nodiscard]] bool fenced() const { return writing.who == Writing::Who::fenced; }
    /// How far the wish to go on here has come; empty before it is asked.
    [[nodiscard]] QString wish_words() const;
    [[nodiscard]] bool wish_open() const {
        return writing.wish == Writing::Wish::asking || writing.wish == Writing::Wish::asked;
    }
    friend bool operator==(const Saving&, const Saving&) = default;
};

}  // namespace courthand::client
