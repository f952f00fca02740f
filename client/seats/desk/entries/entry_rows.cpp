#include "entry_rows.h"

#include <QCoreApplication>
#include <algorithm>

#include "courthand/draw/pools.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Entries {
    Q_DECLARE_TR_FUNCTIONS(Entries)
};

using event::TournamentState;

/// The teams of a division by seed; those without one follow in the order of entry.
std::vector<event::TeamIndex> by_seed(const event::Division& division) {
    std::vector<event::TeamIndex> order;
    for (const event::TeamIndex team : division.seeds)
        if (team != event::no_team) order.push_back(team);
    for (const event::TeamIndex team : division.teams)
        if (std::find(order.begin(), order.end(), team) == order.end()) order.push_back(team);
    return order;
}

QString seed_of(const event::Division& division, event::TeamIndex team) {
    const auto found = std::find(division.seeds.begin(), division.seeds.end(), team);
    if (found == division.seeds.end()) return {};
    return Entries::tr("seed %1").arg(found - division.seeds.begin() + 1);
}

QString list_of(const event::Team& team, const venue::DeskBook& desk) {
    if (team.roster_frozen != 0) return Entries::tr("%1 players, frozen").arg(team.roster.size());
    for (const auto& listed : desk.teams)
        if (listed.name == team.name && !listed.players.empty())
            return Entries::tr("%1 players").arg(listed.players.size());
    return Entries::tr("no team list");
}

QVariantMap entry_row(const TournamentState& state, const event::Division& division,
                      event::TeamIndex index, const venue::DeskBook& desk) {
    const event::Team& team = state.teams[index];
    MarkedWord word{Mark::good, Entries::tr("entered")};
    if (team.withdrawn)
        word = {Mark::quiet, Entries::tr("has left")};
    else if (division.draw && !team.pool)
        word = {Mark::notice, Entries::tr("without a pool")};
    const QString last = team.last_pool.empty()
                             ? QString()
                             : Entries::tr("last event: pool %1").arg(text(team.last_pool));
    QStringList parts{text(team.club), seed_of(division, index), list_of(team, desk), last};
    parts.removeAll(QString());
    return {
        {QStringLiteral("key"), text(team.name)},
        {QStringLiteral("about"), parts.join(QStringLiteral(" · "))},
        {QStringLiteral("pool"),
         team.pool ? Entries::tr("Pool %1").arg(text(division.pools[*team.pool].name)) : QString()},
        {QStringLiteral("mark"), static_cast<int>(word.mark)},
        {QStringLiteral("state"), word.word}};
}

/// Teams as the draw sees them, by the same place.
std::vector<draw::Entry> as_drawn(const TournamentState& state,
                                  const std::vector<event::TeamIndex>& teams) {
    std::vector<draw::Entry> entries;
    for (const event::TeamIndex index : teams) {
        const event::Team& team = state.teams[index];
        entries.push_back({team.name, team.club, team.last_pool});
    }
    return entries;
}

std::vector<std::string> breaches(const TournamentState& state, event::DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    const auto order = by_seed(division);
    const auto entries = as_drawn(state, order);
    draw::Pools pools;
    for (const event::PoolState& pool : division.pools) {
        auto& seeds = pools.emplace_back();
        for (const event::TeamIndex team : pool.teams)
            seeds.push_back(static_cast<draw::Seed>(std::find(order.begin(), order.end(), team) -
                                                    order.begin() + 1));
    }
    std::vector<std::string> words;
    for (const auto& breach : draw::breaches_of(pools, entries, {}))
        words.push_back(draw::in_words(breach, entries));
    return words;
}

}  // namespace

std::vector<QVariantMap> entry_rows(const TournamentState& state, event::DivisionIndex index,
                                    const venue::DeskBook& desk) {
    const event::Division& division = state.divisions[index];
    std::vector<QVariantMap> rows;
    for (const event::PoolState& pool : division.pools)
        for (const event::TeamIndex team : pool.teams)
            if (!state.teams[team].withdrawn)
                rows.push_back(entry_row(state, division, team, desk));
    for (const bool left : {false, true})
        for (const event::TeamIndex team : by_seed(division))
            if (state.teams[team].withdrawn == left && (left || !state.teams[team].pool))
                rows.push_back(entry_row(state, division, team, desk));
    return rows;
}

QStringList broken_between(const TournamentState& before, const TournamentState& after,
                           event::DivisionIndex division) {
    const auto was = breaches(before, division);
    const auto is = breaches(after, division);
    QStringList lines;
    for (const auto& each : is)
        if (std::find(was.begin(), was.end(), each) == was.end())
            lines << Entries::tr("Breaks: %1").arg(text(each));
    for (const auto& each : was)
        if (std::find(is.begin(), is.end(), each) == is.end())
            lines << Entries::tr("Mends: %1").arg(text(each));
    return lines;
}

QStringList broken_in(const TournamentState& state, event::DivisionIndex division) {
    QStringList lines;
    for (const auto& each : breaches(state, division)) lines << text(each);
    return lines;
}

QStringList broken_in_any_draw(const TournamentState& state, event::DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    std::vector<event::TeamIndex> teams = division.teams;
    std::erase_if(teams, [&](event::TeamIndex team) { return state.teams[team].withdrawn; });
    QStringList lines;
    for (const auto& each :
         draw::breaches_of_every_draw(as_drawn(state, teams), division.pools.size()))
        lines << text(each);
    return lines;
}

}  // namespace courthand::seats
