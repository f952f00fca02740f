#include "made_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <set>

#include "courthand/draw/round_robin.h"
#include "entry_rows.h"
#include "result_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Made {
    Q_DECLARE_TR_FUNCTIONS(Made)
};

/// First matches told; a preview is not the whole bracket.
constexpr int most_told = 8;

bool begins(const event::TournamentState& state, event::MatchRef ref) {
    const auto& graph = state.divisions[ref.division].graph;
    for (const auto side : state.node(ref).sides) {
        const auto kind = graph.sources[side].kind;
        if (kind == tournament::Source::Kind::winner || kind == tournament::Source::Kind::loser)
            return false;
    }
    return true;
}

/// What the orders of play of the pools hold, once for each size.
QStringList orders_made(const event::Division& division) {
    std::set<std::uint16_t> sizes;
    for (const event::PoolState& pool : division.pools)
        sizes.insert(static_cast<std::uint16_t>(
            std::min<std::size_t>(pool.teams.size(), draw::most_in_round_robin + 1U)));
    QStringList lines;
    for (const std::uint16_t teams : sizes)
        for (const std::string& line :
             draw::order_in_words(teams, division.draw && division.draw->second_leg))
            lines << Made::tr("Order of play: %1").arg(text(line));
    return lines;
}

}  // namespace

QStringList pools_made(const event::TournamentState& after, event::DivisionIndex index) {
    QStringList lines;
    const event::Division& division = after.divisions[index];
    for (const event::PoolState& pool : division.pools) {
        QStringList names;
        for (const event::TeamIndex team : pool.teams) names << text(after.teams[team].name);
        lines << Made::tr("Pool %1: %2").arg(text(pool.name), names.join(QStringLiteral(", ")));
    }
    for (const QString& line : broken_in(after, index)) lines << Made::tr("Breaks: %1").arg(line);
    for (const QString& line : broken_in_any_draw(after, index))
        lines << Made::tr("Cannot be avoided: %1").arg(line);
    return lines << orders_made(division);
}

QStringList unseeded_words(const event::TournamentState& state, event::DivisionIndex index) {
    const event::Division& division = state.divisions[index];
    QStringList without;
    std::size_t stay = 0;
    for (const event::TeamIndex team : division.teams) {
        if (state.teams[team].withdrawn) continue;
        ++stay;
        if (std::find(division.seeds.begin(), division.seeds.end(), team) == division.seeds.end())
            without << text(state.teams[team].name);
    }
    if (without.isEmpty()) return {};
    if (static_cast<std::size_t>(without.size()) == stay)
        return {
            Made::tr("No team has a seed: they stand in the order in which they were entered. "
                     "Give seeds on the page Teams first.")};
    if (without.size() > most_told)
        without = without.mid(0, most_told) << Made::tr("%1 more").arg(without.size() - most_told);
    return {Made::tr("Without a seed, behind the others in the order of their entry: %1. Give "
                     "seeds on the page Teams first.")
                .arg(without.join(QStringLiteral(", ")))};
}

QStringList matches_made(const event::TournamentState& before, const event::TournamentState& after,
                         event::DivisionIndex index) {
    const auto& matches = after.divisions[index].graph.matches;
    const std::size_t had = before.divisions[index].graph.matches.size();
    if (matches.size() <= had) return {};
    QStringList lines{Made::tr("%1 matches are made: %2 to %3")
                          .arg(matches.size() - had)
                          .arg(text(matches[had].name), text(matches.back().name))};
    int told = 0;
    for (std::size_t m = had; m < matches.size() && told < most_told; ++m) {
        const event::MatchRef ref{index, static_cast<event::MatchIndex>(m)};
        if (!begins(after, ref)) continue;
        ++told;
        lines << QStringLiteral("%1: %2 – %3")
                     .arg(text(matches[m].name), side_words(after, ref, 0),
                          side_words(after, ref, 1));
    }
    return lines;
}

}  // namespace courthand::seats
