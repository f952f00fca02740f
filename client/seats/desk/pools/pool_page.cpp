#include "pool_page.h"

#include <QCoreApplication>
#include <QPointer>
#include <QThreadPool>
#include <algorithm>
#include <variant>

#include "choice_words.h"
#include "event_words.h"
#include "pool_needs.h"
#include "venue_words.h"

namespace courthand::seats {

PoolPage::PoolPage(const venue::EventBook& book, ActPreview& preview, QObject* parent)
    : EventPage(book, preview,
                {QStringLiteral("key"), QStringLiteral("kind"), QStringLiteral("number"),
                 QStringLiteral("place"), QStringLiteral("name"), QStringLiteral("cells"),
                 QStringLiteral("matches"), QStringLiteral("sets"), QStringLiteral("points"),
                 QStringLiteral("mark"), QStringLiteral("state"), QStringLiteral("undecided")},
                parent) {}

void PoolPage::show(event::DivisionIndex division) {
    division_ = division;
    rows_.show(has_division() ? pool_rows(*book_.state, division) : std::vector<QVariantMap>{});
    if (!looked_.isEmpty()) look(looked_);
    if (!level_.isEmpty() && !still_level()) {
        level_.clear();
        chosen_.clear();
        Q_EMIT levelChanged();
    }
}

bool PoolPage::still_level() const {
    const auto& state = *book_.state;
    const auto division = state.find_division(deciding_in_);
    const auto pool = division ? state.find_pool(*division, deciding_) : std::nullopt;
    if (!pool) return false;
    const auto& teams = state.divisions[*division].pools[*pool].teams;
    const auto open = event::undecided(state, *division, *pool);
    return std::any_of(open.begin(), open.end(), [&](const standings::Place& place) {
        QStringList names;
        for (const auto team : place.teams) names << text(state.teams[teams[team]].name);
        return names == level_;
    });
}

void PoolPage::leave() {
    looked_.clear();
    // What is being counted is asked by nobody any more.
    ++question_;
    counting_ = false;
}

void PoolPage::look_at_none() {
    reasons_ = {tr("The team is not in this pool any more.")};
    matches_.clear();
    undecided_ = false;
    needs_.clear();
    ++question_;
    counting_ = false;
    Q_EMIT looked();
    Q_EMIT needsChanged();
}

std::optional<PoolPage::Row> PoolPage::row_of(const QString& key) const {
    const auto& state = *book_.state;
    if (division_ >= state.division_count()) return std::nullopt;
    const QString pool = key.section(key_separator, 1, 1);
    const QString team = key.section(key_separator, 2);
    const auto found = state.find_pool(division_, pool.toStdString());
    if (!found) return std::nullopt;
    Row row{{division_, *found}, std::nullopt};
    const auto& teams = state.divisions[division_].pools[*found].teams;
    for (std::size_t i = 0; i < teams.size(); ++i)
        if (text(state.teams[teams[i]].name) == team)
            row.team = static_cast<standings::TeamIndex>(i);
    return row;
}

void PoolPage::look(const QString& key) {
    const auto row = row_of(key);
    if (!row || !row->team) {
        if (!looked_.isEmpty() && key == looked_) look_at_none();
        return;
    }
    looked_ = key;
    const auto& state = *book_.state;
    const event::Division& division = state.divisions[row->ref.division];
    const auto found = event::standing(state, row->ref.division, row->ref.pool);
    const auto pool = event::standings_pool(state, row->ref.division, row->ref.pool);
    title_ = text(pool.teams[*row->team]);
    chain_ = text(division.chain->title);
    reasons_.clear();
    if (const auto* const how = std::get_if<event::Standing>(&found)) {
        const QString place = place_words(how->table, *row->team);
        if (!place.isEmpty())
            title_ = (how->provisional() ? tr("Place %1 of pool %2 so far: %3")
                                         : tr("Place %1 of pool %2: %3"))
                         .arg(place, text(pool.name), title_);
        reasons_ = why_there(state, *row, *how);
    } else {
        for (const auto& fault : std::get<standings::Faults>(found))
            reasons_ << client::fault_words(fault);
    }
    matches_ = matches_in_pool(state, row->ref, *row->team);
    undecided_ = !event::undecided(state, row->ref.division, row->ref.pool).empty();
    Q_EMIT looked();
    count_needs(*row);
}

QStringList PoolPage::why_there(const event::TournamentState& state, const Row& row,
                                const event::Standing& how) {
    QStringList lines;
    for (std::size_t p = 0; p < how.table.places.size(); ++p) {
        const auto& teams = how.table.places[p].teams;
        if (std::find(teams.begin(), teams.end(), *row.team) == teams.end()) continue;
        for (const auto& line : event::reasons(state, row.ref.division, row.ref.pool, how, p))
            lines << text(line);
    }
    const auto& unplayed = how.unplayed;
    if (std::find(unplayed.begin(), unplayed.end(), *row.team) != unplayed.end())
        lines << tr("The team has not played yet: it has no place so far.");
    else if (place_words(how.table, *row.team).isEmpty())
        lines << tr("The team has left: it gets no place.");
    return lines;
}

void PoolPage::count_needs(const Row& row) {
    needs_.clear();
    counting_ = true;
    const int question = ++question_;
    Q_EMIT needsChanged();
    // Up to a second of work: beside the screen, on a record that does not change.
    QThreadPool::globalInstance()->start(
        [self = QPointer<PoolPage>(this), state = book_.state, row, question] {
            const QStringList lines = needs_lines(*state, row.ref, *row.team);
            // Whether the page is still there is known on its own thread alone.
            QMetaObject::invokeMethod(
                QCoreApplication::instance(),
                [self, lines, question] {
                    if (!self || self->question_ != question) return;
                    self->needs_ = lines;
                    self->counting_ = false;
                    Q_EMIT self->needsChanged();
                },
                Qt::QueuedConnection);
        });
}

bool PoolPage::beginDecision(const QString& key) {
    const auto row = row_of(key);
    if (!row) return false;
    const auto open = event::undecided(*book_.state, row->ref.division, row->ref.pool);
    if (open.empty()) return false;
    // Of several groups that are level, the one with the team that was touched, else the first.
    const auto touched = std::find_if(open.begin(), open.end(), [&](const auto& place) {
        return row->team &&
               std::find(place.teams.begin(), place.teams.end(), *row->team) != place.teams.end();
    });
    const standings::Place& place = touched != open.end() ? *touched : open.front();
    const auto& state = *book_.state;
    const event::PoolState& pool = state.divisions[row->ref.division].pools[row->ref.pool];
    deciding_in_ = state.divisions[row->ref.division].rules.division;
    deciding_ = pool.name;
    pool_ = tr("Places %1 to %2 of pool %3")
                .arg(place.number)
                .arg(place.number + place.teams.size() - 1)
                .arg(text(pool.name));
    usual_ = word_of_choice(place.decider);
    level_.clear();
    chosen_.clear();
    for (const auto team : place.teams) level_ << text(state.teams[pool.teams[team]].name);
    Q_EMIT levelChanged();
    return true;
}

QVariantList PoolPage::level() const {
    QVariantList teams;
    for (const QString& name : level_)
        teams << QVariantMap{
            {QStringLiteral("name"), name},
            {QStringLiteral("place"), static_cast<int>(chosen_.indexOf(name)) + 1}};
    return teams;
}

bool PoolPage::whole() const {
    return !level_.isEmpty() && chosen_.size() == level_.size();
}

void PoolPage::choose(const QString& team) {
    if (!level_.contains(team)) return;
    const auto at = chosen_.indexOf(team);
    if (at >= 0)
        chosen_ = chosen_.mid(0, at);
    else
        chosen_ << team;
    // The last one has no choice left.
    if (chosen_.size() + 1 == level_.size() && at < 0)
        for (const QString& last : level_)
            if (!chosen_.contains(last)) {
                chosen_ << last;
                break;
            }
    Q_EMIT levelChanged();
}

void PoolPage::decide(const QString& by, const QString& words) {
    const auto decider = choice_of<standings::Decider>(by);
    if (!whole() || !decider) return;
    event::DecisionMade fact;
    fact.division = deciding_in_;
    fact.pool = deciding_;
    fact.by = *decider;
    for (const QString& team : chosen_) fact.teams.push_back(team.toStdString());
    preview_.ask(
        {tr("Decision: %1").arg(pool_), tr("%1 are decided.").arg(pool_), {}, {fact}, words});
}

}  // namespace courthand::seats
