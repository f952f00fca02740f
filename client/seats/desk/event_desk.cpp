#include "event_desk.h"

#include <algorithm>
#include <utility>

#include "record/plan_news.h"
#include "venue_words.h"

namespace courthand::seats {

EventDesk::EventDesk(venue::EventSource& source, const venue::DeskBook& desk, QObject* parent)
    : QObject(parent),
      source_(source),
      desk_(desk),
      preview_(source, book_),
      pools_(book_, preview_),
      bracket_(book_, tables_),
      division_page_(book_, preview_),
      duties_(book_, preview_),
      entries_(book_, desk, preview_),
      officials_(book_, preview_),
      places_(book_),
      record_(book_, preview_),
      people_(source, book_, desk, preview_),
      results_(book_, tables_, preview_) {
    source_.start({[this](const venue::EventBook& book) {
                       {
                           const std::scoped_lock lock{newest_mutex_};
                           newest_ = book;
                       }
                       QMetaObject::invokeMethod(this, &EventDesk::take, Qt::QueuedConnection);
                   },
                   [this](const venue::Link& link) {
                       QMetaObject::invokeMethod(
                           this,
                           [this, link] {
                               link_ = link;
                               Q_EMIT bookChanged();
                           },
                           Qt::QueuedConnection);
                   }});
}

EventDesk::~EventDesk() {
    source_.stop();
}

void EventDesk::take() {
    {
        const std::scoped_lock lock{newest_mutex_};
        if (!newest_) return;
        book_ = *std::exchange(newest_, std::nullopt);
    }
    names_ = venue::MatchNames{*book_.state};
    record_work_ = seats::record_work(book_);
    const QStringList codes = divisions();
    if (!codes.contains(division_)) division_ = codes.value(0);
    if (codes != std::exchange(known_divisions_, codes)) Q_EMIT divisionsChanged();
    show();
    officials_.show();
    record_.show();
    // Which record is that of a match stands in the book too, and which numbers are free.
    preview_.renew();
    preview_.book_changed();
    Q_EMIT bookChanged();
    Q_EMIT recordChanged();
}

QStringList EventDesk::divisions() const {
    QStringList codes;
    for (const auto& division : book_.state->divisions) codes << text(division.rules.division);
    return codes;
}

void EventDesk::setDivision(const QString& code) {
    if (code == division_ || !divisions().contains(code)) return;
    division_ = code;
    show();
    Q_EMIT divisionsChanged();
    Q_EMIT bookChanged();
}

QString EventDesk::divisionName() const {
    const auto found = book_.state->find_division(division_.toStdString());
    if (!found) return {};
    const std::string& name = book_.state->divisions[*found].rules.name;
    return name.empty() ? division_ : text(name);
}

bool EventDesk::listsFrozen() const {
    const auto& teams = book_.state->teams;
    return std::any_of(teams.begin(), teams.end(),
                       [](const event::Team& team) { return team.roster_frozen != 0; });
}

void EventDesk::publishPlan() {
    // A question that is on the screen is answered first.
    if (!preview_.open()) preview_.ask(publication(book_));
}

void EventDesk::desk_changed() {
    tables_ = venue::TableResults{desk_};
    // What stands in the record alone has not changed.
    bracket_.show(shown_index());
    entries_.show(shown_index());
    people_.show();
    results_.show(shown_index());
    preview_.renew();
}

event::DivisionIndex EventDesk::shown_index() const {
    // Of a record without divisions: none, and the pages are empty.
    return static_cast<event::DivisionIndex>(divisions().indexOf(division_));
}

void EventDesk::show() {
    const event::DivisionIndex index = shown_index();
    pools_.show(index);
    bracket_.show(index);
    division_page_.show(index);
    duties_.show();
    entries_.show(index);
    places_.show(index);
    people_.show();
    results_.show(index);
}

}  // namespace courthand::seats
