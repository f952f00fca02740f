// The pools of the tournament as rows for the screen: for each pool its head, then its teams in the
// order of play, with a cell for the match against each other team.
#pragma once

#include <QString>
#include <QStringList>
#include <QVariantMap>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/standings/rank.h"

namespace courthand::seats {

/// Between division, pool and team in the key of a row: in no name of a division or pool.
inline constexpr QChar key_separator = QLatin1Char('|');

/// A pool, or a team of one.
struct PoolRef {
    event::DivisionIndex division = 0;
    event::PoolIndex pool = 0;
};

/// "2", "2–3" for teams that are level, empty for one that has left or not played yet.
[[nodiscard]] QString place_words(const standings::Table& table, standings::TeamIndex team);

/// Rows with key, kind ("pool" or "team"), division, pool, number (of the team in the order of
/// play), place, name, detail, cells (maps with own, sets, points), matches, sets, points, mark,
/// state and whether a decision is needed. Of a pool, `cells` are the numbers of its teams.
[[nodiscard]] std::vector<QVariantMap> pool_rows(const event::TournamentState& state,
                                                 event::DivisionIndex division);

/// The matches of a team in its pool, one line each, seen from that team.
[[nodiscard]] QStringList matches_in_pool(const event::TournamentState& state, PoolRef ref,
                                          standings::TeamIndex team);

}  // namespace courthand::seats
