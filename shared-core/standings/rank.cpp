#include "courthand/standings/rank.h"

#include <algorithm>
#include <utility>

#include "standings/counted.h"
#include "standings/separation.h"

namespace courthand::standings {

std::vector<TeamIndex> ranked_teams(const Pool& pool) {
    std::vector<TeamIndex> teams;
    const auto count = static_cast<TeamIndex>(pool.teams.size());
    for (TeamIndex t = 0; t < count; ++t) {
        const bool gone = std::any_of(pool.withdrawals.begin(), pool.withdrawals.end(),
                                      [&](const Withdrawal& w) { return w.team == t; });
        if (!gone) teams.push_back(t);
    }
    return teams;
}

std::vector<Result> counted_results(const Pool& pool) {
    const auto struck = [&](TeamIndex team) {
        return std::any_of(pool.withdrawals.begin(), pool.withdrawals.end(),
                           [&](const Withdrawal& w) {
                               return w.team == team && w.results == Withdrawal::Results::struck;
                           });
    };
    std::vector<Result> results;
    for (const Result& r : pool.results)
        if (!struck(r.first) && !struck(r.second)) results.push_back(r);
    return results;
}

bool Table::decided() const noexcept {
    return std::none_of(places.begin(), places.end(),
                        [](const Place& place) { return place.needs_decision(); });
}

std::optional<TeamIndex> Table::team_at(std::uint16_t number) const noexcept {
    for (const Place& place : places)
        if (place.number == number && place.teams.size() == 1) return place.teams.front();
    return std::nullopt;
}

std::variant<Table, Faults> rank(const Chain& chain, const Pool& pool) {
    Faults faults = faults_of(chain, pool);
    if (!faults.empty()) return faults;
    const std::vector<Result> results = counted_results(pool);
    Separation separation{chain, pool, results, true};
    separation.run(ranked_teams(pool));
    Table table;
    table.places = std::move(separation.places);
    table.comparisons = std::move(separation.comparisons);
    table.records = std::move(separation.records);
    for (const Withdrawal& w : pool.withdrawals) table.withdrawn.push_back(w.team);
    for (std::size_t i = 0; i < pool.decisions.size(); ++i) {
        const bool used = std::any_of(table.places.begin(), table.places.end(),
                                      [&](const Place& p) { return p.decision == i; });
        if (!used) table.unused_decisions.push_back(i);
    }
    return table;
}

}  // namespace courthand::standings
