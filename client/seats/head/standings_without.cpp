#include "standings_without.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <variant>

#include "courthand/event/fold.h"
#include "courthand/event/pool_table.h"
#include "event_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

using event::TournamentState;

// One context for the translators.
struct Standings {
    Q_DECLARE_TR_FUNCTIONS(Standings)
};

struct PlaceNow {
    int order = 0;  ///< from the best
    QString words;
};

/// The places of a pool by the names of its teams; another state has other indices.
std::map<std::string, PlaceNow> places_of(const TournamentState& state, const std::string& division,
                                          const std::string& pool) {
    std::map<std::string, PlaceNow> places;
    const auto d = state.find_division(division);
    const auto p = d ? state.find_pool(*d, pool) : std::nullopt;
    if (!p) return places;
    const auto found = event::standing(state, *d, *p);
    const auto* const how = std::get_if<event::Standing>(&found);
    if (how == nullptr) return places;
    const auto& teams = state.divisions[*d].pools[*p].teams;
    const auto& ranked = how->table.places;
    for (std::size_t i = 0; i < ranked.size(); ++i)
        for (const auto team : ranked[i].teams)
            places[state.teams[teams[team]].name] = {static_cast<int>(i),
                                                     place_words(how->table, team)};
    for (const auto team : how->unplayed)
        places[state.teams[teams[team]].name] = {static_cast<int>(ranked.size()), {}};
    return places;
}

}  // namespace

std::vector<QVariantMap> facts_of_pool(const TournamentState& state, PoolRef ref) {
    const event::Division& division = state.divisions[ref.division];
    // By number, with the teams of a result: its fact names the match alone.
    std::map<event::FactNumber, QString, std::greater<>> teams;
    for (const auto& decision : division.pools[ref.pool].decisions) teams[decision.fact] = {};
    for (const auto m : division.graph.pools[ref.pool].matches) {
        const auto& result = division.matches[m].result;
        if (!result) continue;
        const auto name = [&](std::size_t side) {
            const event::TeamIndex team = result->teams[side];
            return team == event::no_team ? QString() : text(state.teams[team].name);
        };
        teams[result->fact] = Standings::tr("%1 – %2", "teams of a match").arg(name(0), name(1));
    }
    std::vector<QVariantMap> facts;
    for (const auto& [number, words] : teams)
        facts.push_back({{QStringLiteral("number"), number},
                         {QStringLiteral("words"), client::event_words(state.facts[number - 1])},
                         {QStringLiteral("teams"), words}});
    return facts;
}

QString pool_state_words(const TournamentState& state, PoolRef ref) {
    const event::PoolState& pool = state.divisions[ref.division].pools[ref.pool];
    if (pool.open_matches == 1) return Standings::tr("Places are provisional: 1 match is open");
    if (pool.open_matches > 1)
        return Standings::tr("Places are provisional: %1 matches are open").arg(pool.open_matches);
    const auto ranked = event::pool_table(state, ref.division, ref.pool);
    const auto* const table = std::get_if<standings::Table>(&ranked);
    if (table == nullptr || table->decided()) return {};
    QStringList level;
    for (const auto& place : table->places)
        if (place.teams.size() > 1) level << place_words(*table, place.teams.front());
    return Standings::tr("Places %1 are level: a person must decide, at the desk")
        .arg(level.join(QStringLiteral(", ")));
}

std::vector<QVariantMap> places_without(const TournamentState& state, PoolRef ref,
                                        event::FactNumber fact) {
    if (fact == 0) return places_beside(state, state, ref);
    TournamentState other = state;
    event::fold_in(other, event::TakenBack{fact});
    return places_beside(state, other, ref);
}

std::vector<QVariantMap> places_beside(const TournamentState& state, const TournamentState& other,
                                       PoolRef ref) {
    const event::Division& division = state.divisions[ref.division];
    const std::string& pool = division.pools[ref.pool].name;
    const auto is = places_of(state, division.rules.division, pool);
    const auto without = places_of(other, division.rules.division, pool);
    std::vector<std::pair<int, QVariantMap>> rows;
    for (const auto& [name, place] : is) {
        const auto found = without.find(name);
        const QString words = found != without.end() ? found->second.words : QString();
        rows.push_back({place.order,
                        {{QStringLiteral("name"), text(name)},
                         {QStringLiteral("place"), place.words},
                         {QStringLiteral("without"), words},
                         {QStringLiteral("changed"), words != place.words}}});
    }
    std::stable_sort(rows.begin(), rows.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<QVariantMap> sorted;
    for (auto& row : rows) sorted.push_back(std::move(row.second));
    return sorted;
}

}  // namespace courthand::seats
