#include "place_rows.h"

#include <QCoreApplication>

#include "courthand/event/advance.h"
#include "event_words.h"

namespace courthand::seats {

namespace {

struct Places {
    Q_DECLARE_TR_FUNCTIONS(Places)
};

using event::PlaceHeld;
using event::TournamentState;

MarkedWord word_of(PlaceHeld::State state) {
    switch (state) {
        case PlaceHeld::State::held:
            return {Mark::good, Places::tr("stands")};
        case PlaceHeld::State::open:
            return {Mark::quiet, Places::tr("open")};
        case PlaceHeld::State::nobody:
            return {Mark::notice, Places::tr("nobody")};
    }
    return {};
}

QString pool_of(const event::Division& division, const PlaceHeld& place) {
    return place.pool ? Places::tr("pool %1, nobody goes on from here")
                            .arg(text(division.pools[*place.pool].name))
                      : QString();
}

QString name_of(const TournamentState& state, event::DivisionIndex division,
                const PlaceHeld& place) {
    if (place.state == PlaceHeld::State::held) return text(state.teams[place.team].name);
    if (place.source) return text(event::source_words(state, division, *place.source));
    return Places::tr("not decided yet");
}

QVariantMap row(const QString& key, const QString& place, const QString& name,
                const QStringList& about, bool held, const MarkedWord& word) {
    QStringList parts = about;
    parts.removeAll(QString());
    return {{QStringLiteral("key"), key},
            {QStringLiteral("place"), place},
            {QStringLiteral("name"), name},
            {QStringLiteral("detail"), parts.join(QStringLiteral(" · "))},
            {QStringLiteral("held"), held},
            {QStringLiteral("mark"), static_cast<int>(word.mark)},
            {QStringLiteral("state"), word.word}};
}

/// "3 matches to confirm", "1 point to decide": what a division lacks, in short.
QString lacks(const event::DivisionEnd& end) {
    if (end.matches == 0) return Places::tr("no match is made yet");
    QStringList parts;
    if (!end.open.empty())
        parts << Places::tr("%1 of %2 matches without a confirmed result")
                     .arg(end.open.size())
                     .arg(end.matches);
    if (!end.undecided.empty())
        parts << (end.undecided.size() == 1
                      ? Places::tr("1 thing to decide")
                      : Places::tr("%1 things to decide").arg(end.undecided.size()));
    if (parts.isEmpty()) parts << Places::tr("places are open");
    return parts.join(QStringLiteral(", "));
}

}  // namespace

QString place_number(const PlaceHeld& place) {
    return place.first == place.last ? QString::number(place.first)
                                     : QStringLiteral("%1–%2").arg(place.first).arg(place.last);
}

QString place_key(const TournamentState& state, event::DivisionIndex division,
                  const PlaceHeld& place) {
    if (place.source)
        return QStringLiteral("bracket|") +
               text(event::source_words(state, division, *place.source));
    // The only pool of a division: its places are those of the division.
    const event::PoolIndex pool = place.pool.value_or(event::PoolIndex{0});
    return QStringLiteral("pool|%1|%2")
        .arg(text(state.divisions[division].pools[pool].name))
        .arg(place.first);
}

std::vector<QVariantMap> place_rows(const TournamentState& state, event::DivisionIndex index,
                                    const event::DivisionEnd& end) {
    const event::Division& division = state.divisions[index];
    std::vector<QVariantMap> rows;
    for (const PlaceHeld& place : end.places) {
        const bool held = place.state == PlaceHeld::State::held;
        rows.push_back(
            row(place_key(state, index, place), place_number(place), name_of(state, index, place),
                {held ? text(state.teams[place.team].club) : QString(), pool_of(division, place)},
                held, word_of(place.state)));
    }
    for (const event::TeamIndex team : end.left)
        rows.push_back(row(QStringLiteral("left-") + text(state.teams[team].name), QString(),
                           text(state.teams[team].name), {text(state.teams[team].club)}, true,
                           {Mark::quiet, Places::tr("has left")}));
    return rows;
}

MarkedWord division_ending(const TournamentState& state, event::DivisionIndex index,
                           const event::DivisionEnd& end) {
    const event::Division& division = state.divisions[index];
    const QString code = text(division.rules.division);
    if (!end.over()) return {Mark::notice, QStringLiteral("%1: %2.").arg(code, lacks(end))};
    if (end.matches == 0)
        return {Mark::good, Places::tr("Of %1 no match is left to play.").arg(code)};
    const bool pools_only = division.graph.places.empty() && division.pools.size() > 1;
    return {Mark::good,
            pools_only
                ? Places::tr("Every match of %1 is confirmed. The places of its pools stand; no "
                             "bracket follows them.")
                      .arg(code)
                : Places::tr("Every match of %1 is confirmed, places stand.").arg(code)};
}

MarkedWord event_ending(const TournamentState& state) {
    if (event::event_over(state))
        return {Mark::good, Places::tr("Every match of the event is confirmed, places stand.")};
    QStringList parts;
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d) {
        const event::DivisionEnd end = event::division_end(state, d);
        if (!state.divisions[d].teams.empty() && !end.over())
            parts << QStringLiteral("%1: %2").arg(text(state.divisions[d].rules.division),
                                                  lacks(end));
    }
    if (parts.isEmpty()) return {Mark::quiet, Places::tr("No team is entered yet.")};
    return {Mark::notice, Places::tr("The event is not over. %1.").arg(parts.join("; "))};
}

}  // namespace courthand::seats
