#include "pool_needs.h"

#include <QCoreApplication>
#include <algorithm>
#include <variant>

#include "courthand/event/pool_table.h"
#include "courthand/standings/needs.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct PoolNeeds {
    Q_DECLARE_TR_FUNCTIONS(PoolNeeds)
};

/// The same courses are drawn each time that somebody looks.
constexpr std::uint64_t seed_of_courses = 1;
/// Conditions of each kind that a person reads.
constexpr std::size_t most_read = 6;

struct Asked {
    standings::Pool pool;
    std::vector<standings::OpenMatch> open;
    standings::MatchLength length{};  ///< all matches of a pool have one format
};

Asked asked_of(const event::TournamentState& state, PoolRef ref) {
    const event::Division& division = state.divisions[ref.division];
    Asked asked{event::standings_pool(state, ref.division, ref.pool), {}, {}};
    const auto& teams = division.pools[ref.pool].teams;
    const auto place = [&](event::TeamIndex team) {
        return static_cast<standings::TeamIndex>(std::find(teams.begin(), teams.end(), team) -
                                                 teams.begin());
    };
    for (const auto m : division.graph.pools[ref.pool].matches) {
        const event::MatchState& match = division.matches[m];
        const event::Side first = state.side({ref.division, m}, 0);
        const event::Side second = state.side({ref.division, m}, 1);
        asked.length = {match.format.sets, match.format.all_sets_played != 0};
        if (match.result_counts || !first.is_team() || !second.is_team()) continue;
        if (state.teams[first.team].withdrawn || state.teams[second.team].withdrawn) continue;
        asked.open.push_back({place(first.team), place(second.team), m + 1U});
    }
    return asked;
}

void add_conditions(QStringList& lines, const Asked& asked,
                    const std::vector<standings::Condition>& conditions, const QString& before) {
    for (std::size_t i = 0; i < std::min(conditions.size(), most_read); ++i)
        lines << before.arg(
            text(standings::in_words(conditions[i], asked.pool, asked.open, asked.length)));
    if (conditions.size() > most_read)
        lines << PoolNeeds::tr("and %1 other ways").arg(conditions.size() - most_read);
}

QStringList lines_of(const Asked& asked, const standings::Needs& needs,
                     const standings::TeamNeeds& team, std::uint16_t cut) {
    const QString goal = PoolNeeds::tr("the first %1").arg(cut);
    if (team.fate == standings::Fate::through)
        return {PoolNeeds::tr("Among %1 whatever comes.").arg(goal)};
    if (team.fate == standings::Fate::out)
        return {PoolNeeds::tr("No longer among %1, whatever comes.").arg(goal)};
    QStringList lines;
    lines << (needs.exact
                  ? PoolNeeds::tr("Among %1 in %2 of %3 courses of the open matches; %4 hang on "
                                  "scores or a decision.")
                        .arg(goal)
                        .arg(team.through)
                        .arg(needs.courses)
                        .arg(team.hangs)
                  : PoolNeeds::tr("Among %1 in about %2 % of the courses (to %3 points), drawn.")
                        .arg(goal)
                        .arg(100.0 * static_cast<double>(team.through) /
                                 static_cast<double>(std::max<std::uint64_t>(needs.courses, 1)),
                             0, 'f', 0)
                        .arg(100.0 * needs.error, 0, 'f', 1));
    add_conditions(lines, asked, team.enough, PoolNeeds::tr("Enough: %1"));
    add_conditions(lines, asked, team.too_bad, PoolNeeds::tr("Out if: %1"));
    return lines;
}

}  // namespace

QStringList needs_lines(const event::TournamentState& state, PoolRef ref,
                        standings::TeamIndex team) {
    const event::Division& division = state.divisions[ref.division];
    const auto& cuts = division.pools[ref.pool].cuts;
    const Asked asked = asked_of(state, ref);
    QStringList lines;
    if (asked.open.empty()) return lines;
    if (cuts.empty())
        return {PoolNeeds::tr("The draw names no place that goes through: nothing to count.")};
    // Those of the draw that are places of this pool.
    for (const std::uint16_t cut : asked.pool.cuts) {
        const auto found = standings::needs_of(*division.chain, asked.pool, asked.open, cut,
                                               asked.length, seed_of_courses);
        if (const auto* const why = std::get_if<standings::Faults>(&found))
            lines << PoolNeeds::tr("Not counted: %1; %2")
                         .arg(text(why->front().message), text(why->front().cure));
        const auto* const needs = std::get_if<standings::Needs>(&found);
        if (needs == nullptr) continue;
        for (const auto& each : needs->teams)
            if (each.team == team) lines << lines_of(asked, *needs, each, cut);
    }
    return lines;
}

}  // namespace courthand::seats
