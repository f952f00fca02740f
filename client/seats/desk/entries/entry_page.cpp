#include "entry_page.h"

#include <utility>

#include "courthand/event/bounds.h"
#include "courthand/event/fold.h"
#include "courthand/event/limits.h"
#include "entry_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// A choice and its word.
QVariantList pair(const QString& name) {
    return {name, name};
}

bool is_pool_or_none(const QString& pool) {
    const std::string name = pool.toStdString();
    return name.empty() || (event::is_word(name) && name.size() <= event::most_word_bytes);
}

}  // namespace

EntryPage::EntryPage(const venue::EventBook& book, const venue::DeskBook& desk, ActPreview& preview,
                     QObject* parent)
    : EventPage(book, preview,
                {QStringLiteral("key"), QStringLiteral("about"), QStringLiteral("pool"),
                 QStringLiteral("mark"), QStringLiteral("state")},
                parent),
      desk_(desk) {}

void EntryPage::show(event::DivisionIndex division) {
    division_ = division;
    rows_.show(has_division() ? entry_rows(*book_.state, division, desk_)
                              : std::vector<QVariantMap>{});
    Q_EMIT looked();
}

std::optional<event::TeamIndex> EntryPage::index() const {
    return team_.isEmpty() ? std::nullopt : book_.state->find_team(team_.toStdString());
}

bool EntryPage::look(const QString& team) {
    team_ = team;
    if (!index()) team_.clear();
    Q_EMIT looked();
    return !team_.isEmpty();
}

QString EntryPage::about() const {
    const int row = rows_.rowOf(team_);
    QStringList parts;
    for (const char* name : {"state", "pool", "about"}) {
        const QString part = rows_.field(row, QString::fromLatin1(name)).toString();
        if (!part.isEmpty()) parts << part;
    }
    return parts.join(QStringLiteral(" · "));
}

QVariantList EntryPage::otherPools() const {
    QVariantList pools;
    const auto team = index();
    if (!team || book_.state->teams[*team].withdrawn) return pools;
    const event::Division& division = book_.state->divisions[book_.state->teams[*team].division];
    for (std::size_t p = 0; p < division.pools.size(); ++p)
        if (book_.state->teams[*team].pool != static_cast<event::PoolIndex>(p))
            pools << QVariant(pair(text(division.pools[p].name)));
    return pools;
}

bool EntryPage::mayLeave() const {
    const auto team = index();
    return team && !book_.state->teams[*team].withdrawn;
}

QVariantList EntryPage::teamsIn(const QString& pool) const {
    QVariantList teams{QVariant(QVariantList{QString(), tr("nobody")})};
    if (!has_division()) return teams;
    const auto found = book_.state->find_pool(division_, pool.toStdString());
    if (!found) return teams;
    for (const event::TeamIndex team : book_.state->divisions[division_].pools[*found].teams)
        teams << QVariant(pair(text(book_.state->teams[team].name)));
    return teams;
}

void EntryPage::complain(const QString& problem) {
    problem_ = problem;
    Q_EMIT problemChanged();
}

void EntryPage::enter(const QString& lines) {
    if (!has_division()) return complain(tr("Open a division first."));
    std::vector<event::Fact> facts;
    const QString code = text(book_.state->divisions[division_].rules.division);
    for (const QString& line : lines.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
        const QString name = line.section(QLatin1Char(','), 0, 0).trimmed();
        const QString club = line.section(QLatin1Char(','), 1, 1).trimmed();
        const QString last_pool = line.section(QLatin1Char(','), 2).trimmed();
        if (name.isEmpty()) continue;
        if (name.toUtf8().size() > static_cast<int>(event::most_name_bytes) ||
            club.toUtf8().size() > static_cast<int>(event::most_name_bytes))
            return complain(tr("“%1” is too long: %2 bytes at most for a name.")
                                .arg(line.trimmed())
                                .arg(event::most_name_bytes));
        if (!is_pool_or_none(last_pool))
            return complain(
                tr("“%1”: “%2” is no pool of the last event. Write its name without blanks and "
                   "commas, as in C: one team a line, then its club, then that pool.")
                    .arg(name, last_pool));
        facts.push_back(event::TeamEntered{name.toStdString(),
                                           code.toStdString(),
                                           club.toStdString(),
                                           {},
                                           last_pool.toStdString()});
    }
    if (facts.empty()) return complain(tr("Write one team on each line."));
    if (facts.size() > event::most_listed)
        return complain(tr("These are %1 teams: enter at most %2 at once.")
                            .arg(facts.size())
                            .arg(event::most_listed));
    complain({});
    const auto count = facts.size();
    preview_.ask({count == 1 ? tr("Enter a team in %1").arg(code)
                             : tr("Enter %1 teams in %2").arg(count).arg(code),
                  count == 1 ? tr("The team is entered.") : tr("The teams are entered."),
                  {},
                  std::move(facts),
                  {}});
}

void EntryPage::withdraw() {
    const auto team = index();
    if (!team) return;
    const auto& rules = book_.state->divisions[book_.state->teams[*team].division].rules;
    QString note =
        rules.withdrawn == event::WithdrawnResults::struck
            ? tr("Its results in the pool are struck: so the division says. It gets no place.")
            : tr("Its results in the pool are kept: so the division says. It gets no place.");
    preview_.ask({tr("Withdraw %1").arg(team_),
                  tr("%1 is withdrawn.").arg(team_),
                  [note = std::move(note)](const auto&) { return QStringList{note}; },
                  {event::TeamWithdrawn{team_.toStdString()}}});
}

void EntryPage::move(const QString& pool, const QString& with) {
    const auto team = index();
    if (!team || pool.isEmpty()) return;
    event::TeamMoved fact{team_.toStdString(), pool.toStdString(), with.toStdString()};
    const auto broken = [fact](const event::TournamentState& state) {
        const auto moved = state.find_team(fact.team);
        if (!moved) return QStringList();
        event::TournamentState after = state;
        event::fold_in(after, fact);
        return broken_between(state, after, state.teams[*moved].division);
    };
    preview_.ask({tr("Move %1 to pool %2").arg(team_, pool),
                  tr("%1 is in pool %2.").arg(team_, pool),
                  broken,
                  {std::move(fact)},
                  {}});
}

}  // namespace courthand::seats
