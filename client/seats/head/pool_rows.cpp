#include "pool_rows.h"

#include <QCoreApplication>
#include <algorithm>
#include <optional>
#include <variant>

#include "courthand/event/pool_table.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Pools {
    Q_DECLARE_TR_FUNCTIONS(Pools)
};

using event::TournamentState;
using standings::Table;

/// A result seen from one of its teams.
struct Seen {
    int won = 0;
    int lost = 0;
    QStringList points;
};

Seen seen_by(const event::Result& result, event::TeamIndex team) {
    Seen seen;
    const bool first = result.teams[0] == team;
    for (const event::SetScore set : result.sets) {
        const int own = first ? set.first : set.second;
        const int other = first ? set.second : set.first;
        ++(own > other ? seen.won : seen.lost);
        seen.points << QStringLiteral("%1-%2").arg(own).arg(other);
    }
    return seen;
}

/// The result that counts between two teams of a pool. Of two legs the one in which `a` is the
/// first side: the other stands in the row of `b`.
const event::Result* result_between(const event::Division& division, PoolRef ref,
                                    event::TeamIndex a, event::TeamIndex b) {
    const event::MatchState* found = nullptr;
    for (const auto m : division.graph.pools[ref.pool].matches) {
        const auto& sides = division.graph.matches[m].sides;
        const event::TeamIndex first = division.settled[sides[0]].team;
        const event::TeamIndex second = division.settled[sides[1]].team;
        const bool own = first == a && second == b;
        if (own || (found == nullptr && first == b && second == a)) found = &division.matches[m];
        if (own) break;
    }
    return found != nullptr && found->result_counts ? &*found->result : nullptr;
}

QVariantMap cell(const event::Result* result, event::TeamIndex team) {
    if (result == nullptr)
        return {{QStringLiteral("own"), false},
                {QStringLiteral("sets"), QString()},
                {QStringLiteral("points"), QString()}};
    const Seen seen = seen_by(*result, team);
    return {{QStringLiteral("own"), false},
            {QStringLiteral("sets"), QStringLiteral("%1:%2").arg(seen.won).arg(seen.lost)},
            {QStringLiteral("points"), seen.points.join(QLatin1Char(' '))}};
}

QVariantList cells_of(const event::Division& division, PoolRef ref, std::size_t row) {
    const auto& teams = division.pools[ref.pool].teams;
    QVariantList cells;
    for (std::size_t column = 0; column < teams.size(); ++column) {
        if (column == row)
            cells << QVariantMap{{QStringLiteral("own"), true},
                                 {QStringLiteral("sets"), QString()},
                                 {QStringLiteral("points"), QString()}};
        else
            cells << cell(result_between(division, ref, teams[row], teams[column]), teams[row]);
    }
    return cells;
}

const standings::Place* place_of(const Table& table, standings::TeamIndex team) {
    for (const auto& place : table.places)
        if (std::find(place.teams.begin(), place.teams.end(), team) != place.teams.end())
            return &place;
    return nullptr;
}

MarkedWord team_state(const event::Standing& how, standings::TeamIndex team) {
    if (std::find(how.unplayed.begin(), how.unplayed.end(), team) != how.unplayed.end())
        return {Mark::quiet, Pools::tr("not played yet")};
    const auto* const place = place_of(how.table, team);
    if (place == nullptr) return {Mark::quiet, Pools::tr("has left")};
    if (how.provisional()) return {Mark::quiet, Pools::tr("so far")};
    if (place->needs_decision()) return {Mark::caution, Pools::tr("level: decide")};
    if (place->decision) return {Mark::good, Pools::tr("decided")};
    return {Mark::good, Pools::tr("settled")};
}

MarkedWord pool_state(const event::Standing* how) {
    if (how == nullptr) return {Mark::fault, Pools::tr("cannot be put in order")};
    if (how->open_matches == 1) return {Mark::quiet, Pools::tr("1 match open")};
    if (how->provisional())
        return {Mark::quiet, Pools::tr("%1 matches open").arg(how->open_matches)};
    if (!how->table.decided()) return {Mark::caution, Pools::tr("needs a decision")};
    return {Mark::good, Pools::tr("settled")};
}

QString key_of(const event::Division& division, const event::PoolState& pool) {
    return text(division.rules.division) + key_separator + text(pool.name);
}

QVariantMap head_row(const event::Division& division, const event::PoolState& pool,
                     const event::Standing* how) {
    QVariantList numbers;
    for (std::size_t i = 1; i <= pool.teams.size(); ++i) numbers << QString::number(i);
    const MarkedWord word = pool_state(how);
    return {{QStringLiteral("key"), key_of(division, pool)},
            {QStringLiteral("kind"), QStringLiteral("pool")},
            {QStringLiteral("name"), Pools::tr("Pool %1").arg(text(pool.name))},
            {QStringLiteral("place"), QString()},
            {QStringLiteral("number"), QString()},
            {QStringLiteral("cells"), numbers},
            {QStringLiteral("matches"), QString()},
            {QStringLiteral("sets"), QString()},
            {QStringLiteral("points"), QString()},
            {QStringLiteral("mark"), static_cast<int>(word.mark)},
            {QStringLiteral("state"), word.word},
            {QStringLiteral("undecided"), how && !how->table.decided()}};
}

QVariantMap team_row(const TournamentState& state, PoolRef ref, const event::Standing* how,
                     std::size_t at) {
    const event::Division& division = state.divisions[ref.division];
    const event::PoolState& pool = division.pools[ref.pool];
    const event::Team& team = state.teams[pool.teams[at]];
    const auto index = static_cast<standings::TeamIndex>(at);
    const standings::Record sums = how ? how->table.records[at] : standings::Record{};
    const MarkedWord word = how ? team_state(*how, index) : MarkedWord{};
    return {
        {QStringLiteral("key"), key_of(division, pool) + key_separator + text(team.name)},
        {QStringLiteral("kind"), QStringLiteral("team")},
        {QStringLiteral("name"), text(team.name)},
        {QStringLiteral("place"), how ? place_words(how->table, index) : QString()},
        {QStringLiteral("number"), QString::number(at + 1)},
        {QStringLiteral("cells"), cells_of(division, ref, at)},
        {QStringLiteral("matches"), QStringLiteral("%1–%2").arg(sums.won).arg(sums.lost)},
        {QStringLiteral("sets"), QStringLiteral("%1:%2").arg(sums.sets_won).arg(sums.sets_lost)},
        {QStringLiteral("points"),
         QStringLiteral("%1:%2").arg(sums.points_won).arg(sums.points_lost)},
        {QStringLiteral("mark"), static_cast<int>(word.mark)},
        {QStringLiteral("state"), word.word},
        {QStringLiteral("undecided"), false}};
}

}  // namespace

QString place_words(const Table& table, standings::TeamIndex team) {
    const auto* const place = place_of(table, team);
    if (place == nullptr) return {};
    if (place->teams.size() == 1) return QString::number(place->number);
    return QStringLiteral("%1–%2").arg(place->number).arg(place->number + place->teams.size() - 1);
}

std::vector<QVariantMap> pool_rows(const TournamentState& state, event::DivisionIndex index) {
    std::vector<QVariantMap> rows;
    const event::Division& division = state.divisions[index];
    for (std::size_t p = 0; p < division.pools.size(); ++p) {
        const PoolRef ref{index, static_cast<event::PoolIndex>(p)};
        const auto found = event::standing(state, index, ref.pool);
        const auto* const how = std::get_if<event::Standing>(&found);
        rows.push_back(head_row(division, division.pools[p], how));
        for (std::size_t at = 0; at < division.pools[p].teams.size(); ++at)
            rows.push_back(team_row(state, ref, how, at));
    }
    return rows;
}

QStringList matches_in_pool(const TournamentState& state, PoolRef ref, standings::TeamIndex at) {
    const event::Division& division = state.divisions[ref.division];
    const event::TeamIndex own = division.pools[ref.pool].teams[at];
    QStringList lines;
    for (const auto m : division.graph.pools[ref.pool].matches) {
        const event::MatchRef match{ref.division, m};
        const event::Side first = state.side(match, 0);
        const event::Side second = state.side(match, 1);
        if (first.team != own && second.team != own) continue;
        const event::TeamIndex other = first.team == own ? second.team : first.team;
        if (other == event::no_team) continue;
        const QString name = text(division.graph.matches[m].name);
        const event::MatchState& match_state = division.matches[m];
        if (!match_state.result_counts) {
            lines << Pools::tr("%1 against %2: open").arg(name, text(state.teams[other].name));
            continue;
        }
        const Seen seen = seen_by(*match_state.result, own);
        lines << Pools::tr("%1 against %2: %3 (%4)")
                     .arg(name, text(state.teams[other].name),
                          QStringLiteral("%1:%2").arg(seen.won).arg(seen.lost),
                          seen.points.join(QLatin1Char(' ')));
    }
    return lines;
}

}  // namespace courthand::seats
