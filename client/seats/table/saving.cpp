#include "saving.h"

namespace courthand::client {

namespace {

QString qs(const std::string& text) {
    return QString::fromStdString(text);
}

}  // namespace

QString Saving::words() const {
    const auto count = [](std::size_t entries) { return static_cast<int>(entries); };
    if (!sync.unreadable.empty()) return tr("the journal cannot be read");
    if (sync.practice) return tr("practice, not sent");
    if (sync.refused > 0)
        return tr("saved, %n not taken by the server", nullptr, count(sync.refused));
    if (sync.beside > 0) return tr("saved, %n beside the record", nullptr, count(sync.beside));
    if (writing.who != Writing::Who::here) return tr("another device writes");
    if (sync.waiting > 0) return tr("saved, %n waiting to send", nullptr, count(sync.waiting));
    if (sync.rulings > 0)
        return tr("saved, %n rulings not recorded yet", nullptr, count(sync.rulings));
    if (sync.elsewhere > 0)
        return tr("saved, %n of other matches not sent", nullptr, count(sync.elsewhere));
    switch (sync.link) {
        case SyncStatus::Link::offline:
            return tr("saved, no network");
        case SyncStatus::Link::connecting:
            return tr("saved, connecting");
        case SyncStatus::Link::online:
            return tr("saved and sent");
    }
    return {};
}

Saving::Mark Saving::mark() const {
    if (!sync.unreadable.empty() || sync.refused > 0 || sync.beside > 0 || fenced())
        return Mark::needs_person;
    const bool sent = sync.all_sent() && sync.link == SyncStatus::Link::online;
    return sent && !sync.practice && writing.who == Writing::Who::here ? Mark::all_sent
                                                                       : Mark::on_its_way;
}

QString Saving::help() const {
    if (!sync.unreadable.empty()) return qs(sync.unreadable);
    if (fenced())
        return tr(
            "Another device writes this match now. Go on there; what is recorded here is kept "
            "beside the record. To go on here instead: More, Ask to go on here.");
    // Without a network everything is as it should be, and the last entry is more worth reading.
    const bool answered = sync.link == SyncStatus::Link::online;
    return mark() == Mark::needs_person || answered ? error() : QString();
}

QString Saving::error() const {
    if (sync.last_error.empty()) return {};
    return sync.practice
               ? tr("Practice: nothing of this match is sent. %1").arg(qs(sync.last_error))
               : qs(sync.last_error);
}

QString Saving::wish_words() const {
    const QString why = qs(writing.words);
    switch (writing.wish) {
        case Writing::Wish::none:
            return {};
        case Writing::Wish::asking:
            return sync.link == SyncStatus::Link::online
                       ? tr("Asking…")
                       : tr("It is asked as soon as the server is reached.");
        case Writing::Wish::asked:
            return tr("Asked. Waiting for the desk or the head official.");
        case Writing::Wish::declined:
            return tr("The desk or the head official said no. You may ask again.");
        case Writing::Wish::failed:
            return why.isEmpty() ? tr("It could not be asked. Try again, or tell the desk.")
                                 : tr("Not possible now: %1").arg(why);
    }
    return {};
}

}  // namespace courthand::client
