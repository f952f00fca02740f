#include "standings_page.h"

#include <utility>

#include "place_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

QVariantList listed(const std::vector<QVariantMap>& rows) {
    QVariantList list;
    for (const auto& row : rows) list << row;
    return list;
}

QString key_of(const event::Division& division, const event::PoolState& pool) {
    return QStringLiteral("%1 %2").arg(text(division.rules.division), text(pool.name));
}

}  // namespace

StandingsPage::StandingsPage(venue::EventSource& source, QObject* parent)
    : QObject(parent), source_(source), finals_(book_) {
    source_.start({[this](const venue::EventBook& book) {
                       {
                           const std::scoped_lock lock{newest_mutex_};
                           newest_ = book;
                       }
                       QMetaObject::invokeMethod(this, &StandingsPage::take, Qt::QueuedConnection);
                   },
                   [this](const venue::Link& link) {
                       QMetaObject::invokeMethod(
                           this,
                           [this, link] {
                               const bool refused = link.state == venue::LinkState::refused;
                               problem_ = refused ? text(link.words) : QString();
                               Q_EMIT changed();
                           },
                           Qt::QueuedConnection);
                   }});
}

StandingsPage::~StandingsPage() {
    source_.stop();
}

void StandingsPage::take() {
    {
        const std::scoped_lock lock{newest_mutex_};
        if (!newest_) return;
        book_ = *std::exchange(newest_, std::nullopt);
    }
    // What is shown may have been made anew, or taken back.
    const bool shown = division_.isEmpty() ? ref().has_value() : divisions().contains(division_);
    if (!shown) {
        pool_ = pools().value(0);
        division_ = pool_.isEmpty() ? divisions().value(0) : QString();
    }
    show_finals();
    Q_EMIT changed();
}

QString StandingsPage::ending() const {
    return book_.state->division_count() > 0 ? event_ending(*book_.state).word : QString();
}

int StandingsPage::endingMark() const {
    return static_cast<int>(event_ending(*book_.state).mark);
}

QStringList StandingsPage::pools() const {
    QStringList keys;
    for (const auto& division : book_.state->divisions)
        for (const auto& pool : division.pools) keys << key_of(division, pool);
    return keys;
}

std::optional<PoolRef> StandingsPage::ref() const {
    const auto& divisions = book_.state->divisions;
    for (std::size_t d = 0; d < divisions.size(); ++d)
        for (std::size_t p = 0; p < divisions[d].pools.size(); ++p)
            if (key_of(divisions[d], divisions[d].pools[p]) == pool_)
                return PoolRef{static_cast<event::DivisionIndex>(d),
                               static_cast<event::PoolIndex>(p)};
    return std::nullopt;
}

void StandingsPage::setPool(const QString& pool) {
    pool_ = pool;
    division_.clear();
    fact_ = 0;
    Q_EMIT changed();
}

QStringList StandingsPage::divisions() const {
    QStringList codes;
    for (const auto& division : book_.state->divisions) codes << text(division.rules.division);
    return codes;
}

void StandingsPage::setDivision(const QString& code) {
    pool_.clear();
    division_ = code;
    fact_ = 0;
    show_finals();
    Q_EMIT changed();
}

void StandingsPage::show_finals() {
    const auto at = divisions().indexOf(division_);
    if (at >= 0) finals_.show(static_cast<event::DivisionIndex>(at));
}

void StandingsPage::setFact(int number) {
    fact_ = static_cast<event::FactNumber>(number);
    Q_EMIT changed();
}

QVariantList StandingsPage::facts() const {
    const auto found = ref();
    return found ? listed(facts_of_pool(*book_.state, *found)) : QVariantList();
}

QString StandingsPage::stateWords() const {
    const auto found = ref();
    return found ? pool_state_words(*book_.state, *found) : QString();
}

QVariantList StandingsPage::places() const {
    const auto found = ref();
    return found ? listed(places_without(*book_.state, *found, fact_)) : QVariantList();
}

}  // namespace courthand::seats
