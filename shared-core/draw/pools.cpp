#include "courthand/draw/pools.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string_view>

#include "courthand/draw/random.h"

namespace courthand::draw {
namespace {

[[nodiscard]] Faults faults_of_sizes(std::size_t teams, std::size_t pools) {
    if (pools == 0 || pools > most_pools)
        return {{"pools", fmt::format("{} pools", pools),
                 fmt::format("make 1 to {} pools", most_pools)}};
    const std::size_t smallest = teams / pools;
    const std::size_t largest = (teams + pools - 1) / pools;
    if (smallest < fewest_in_pool)
        return {{"pools",
                 fmt::format("{} teams in {} pools: a pool of {}", teams, pools,
                             smallest == 1 ? std::string{"one"} : std::to_string(smallest)),
                 fmt::format("make fewer pools: each has {} teams or more", fewest_in_pool)}};
    if (largest > most_in_pool)
        return {{"pools", fmt::format("{} teams in {} pools: a pool of {}", teams, pools, largest),
                 fmt::format("make more pools: each has {} teams at most", most_in_pool)}};
    return {};
}

/// Pool of the `index`-th team of the snake, from 0.
[[nodiscard]] std::size_t snake_pool(std::size_t index, std::size_t pools) noexcept {
    const std::size_t in_row = index % pools;
    return index / pools % 2 == 0 ? in_row : pools - 1 - in_row;
}

void sort_each(Pools& pools) {
    for (auto& pool : pools) std::sort(pool.begin(), pool.end());
}

[[nodiscard]] std::size_t distance(std::size_t a, std::size_t b) noexcept {
    return a > b ? a - b : b - a;
}

class Check {
  public:
    Check(const Pools& pools, const std::vector<Entry>& entries, const DrawLimits& limits)
        : pools_{pools}, entries_{entries}, limits_{limits} {}

    std::vector<Breach> run() {
        for (std::size_t p = 0; p < pools_.size(); ++p) {
            const std::size_t size = pools_[p].size();
            if (size < fewest_in_pool || size > most_in_pool)
                found_.push_back({Breach::Kind::pool_size, p, pools_[p], size});
            alike(p, &Entry::club, Breach::Kind::same_club);
            alike(p, &Entry::last_pool, Breach::Kind::same_last_pool);
            far_from_snake(p);
        }
        uneven();
        return found_;
    }

  private:
    void alike(std::size_t pool, std::string Entry::*field, Breach::Kind kind) {
        const auto& teams = pools_[pool];
        for (std::size_t i = 0; i < teams.size(); ++i)
            for (std::size_t k = i + 1; k < teams.size(); ++k) {
                const std::string& ours = entries_[teams[i] - 1U].*field;
                if (!ours.empty() && ours == entries_[teams[k] - 1U].*field)
                    found_.push_back({kind, pool, {teams[i], teams[k]}, 0});
            }
    }

    /// The n-th team of a pool stands where the snake comes to the pool for the n-th time.
    void far_from_snake(std::size_t pool) {
        auto teams = pools_[pool];
        std::sort(teams.begin(), teams.end());
        for (std::size_t row = 0; row < teams.size(); ++row) {
            const std::size_t in_row = row % 2 == 0 ? pool : pools_.size() - 1 - pool;
            const std::size_t away = distance(teams[row], row * pools_.size() + in_row + 1);
            if (away > limits_.most_seed_distance)
                found_.push_back({Breach::Kind::seed_distance, pool, {teams[row]}, away});
        }
    }

    void uneven() {
        const auto by_size = [](const auto& a, const auto& b) { return a.size() < b.size(); };
        const auto smallest = std::min_element(pools_.begin(), pools_.end(), by_size);
        const auto largest = std::max_element(pools_.begin(), pools_.end(), by_size);
        if (pools_.empty() || largest->size() <= smallest->size() + 1) return;
        found_.push_back({Breach::Kind::uneven_pools,
                          static_cast<std::size_t>(largest - pools_.begin()),
                          {},
                          largest->size() - smallest->size()});
    }

    const Pools& pools_;
    const std::vector<Entry>& entries_;
    const DrawLimits& limits_;
    std::vector<Breach> found_;
};

[[nodiscard]] std::vector<Breach> without(const std::vector<Breach>& all,
                                          const std::vector<Breach>& others) {
    std::vector<Breach> left;
    for (const Breach& b : all)
        if (std::find(others.begin(), others.end(), b) == others.end()) left.push_back(b);
    return left;
}

[[nodiscard]] std::optional<std::size_t> pool_of(const Pools& pools, Seed team) {
    for (std::size_t p = 0; p < pools.size(); ++p)
        if (std::find(pools[p].begin(), pools[p].end(), team) != pools[p].end()) return p;
    return std::nullopt;
}

[[nodiscard]] Change changed(const Pools& before, Pools after, const std::vector<Entry>& entries,
                             const DrawLimits& limits) {
    sort_each(after);
    const auto then = breaches_of(before, entries, limits);
    const auto now = breaches_of(after, entries, limits);
    return {std::move(after), without(now, then), without(then, now)};
}

/// Each seed of the draw must be an entry, so that the checks can look it up.
[[nodiscard]] Faults faults_of_draw(const Pools& pools, const std::vector<Entry>& entries) {
    if (pools.size() > most_pools)
        return {{"pools", fmt::format("{} pools", pools.size()),
                 fmt::format("make 1 to {} pools", most_pools)}};
    for (std::size_t p = 0; p < pools.size(); ++p)
        for (const Seed team : pools[p])
            if (team == 0 || team > entries.size())
                return {{fmt::format("pool {}", pool_name(p)),
                         fmt::format("seed {} is no entry", team), "enter the team first"}};
    return {};
}

[[nodiscard]] Fault not_drawn(Seed team) {
    return {"pools", fmt::format("seed {} is in no pool", team), "name a team that was drawn"};
}

}  // namespace

std::string pool_name(std::size_t pool) {
    return std::string(1, static_cast<char>('A' + pool));
}

std::variant<Pools, Faults> serpentine(std::size_t teams, std::size_t pools) {
    Faults faults = faults_of_sizes(teams, pools);
    if (!faults.empty()) return faults;
    Pools dealt(pools);
    for (std::size_t i = 0; i < teams; ++i)
        dealt[snake_pool(i, pools)].push_back(static_cast<Seed>(i + 1));
    return dealt;
}

std::variant<Pools, Faults> drawn_in_rows(std::size_t teams, std::size_t pools,
                                          std::uint64_t generator_seed) {
    Faults faults = faults_of_sizes(teams, pools);
    if (!faults.empty()) return faults;
    Random random{generator_seed};
    Pools dealt(pools);
    for (std::size_t row = 0; row * pools < teams; ++row) {
        std::vector<Seed> drawn;
        for (std::size_t i = row * pools; i < std::min((row + 1) * pools, teams); ++i)
            drawn.push_back(static_cast<Seed>(i + 1));
        if (row > 0) shuffle(drawn, random);
        for (std::size_t i = 0; i < drawn.size(); ++i)
            dealt[snake_pool(row * pools + i, pools)].push_back(drawn[i]);
    }
    return dealt;
}

std::vector<Seed> drawn_by_lot(std::size_t teams, std::size_t kept, std::uint64_t generator_seed) {
    std::vector<Seed> order;
    std::vector<Seed> drawn;
    for (std::size_t i = 1; i <= teams; ++i)
        (i <= kept ? order : drawn).push_back(static_cast<Seed>(i));
    Random random{generator_seed};
    shuffle(drawn, random);
    order.insert(order.end(), drawn.begin(), drawn.end());
    return order;
}

std::vector<Breach> breaches_of(const Pools& pools, const std::vector<Entry>& entries,
                                const DrawLimits& limits) {
    return Check{pools, entries, limits}.run();
}

std::string in_words(const Breach& breach, const std::vector<Entry>& entries) {
    const auto name = [&](std::size_t i) { return entries[breach.teams[i] - 1U].name; };
    const std::string where = "pool " + pool_name(breach.pool);
    switch (breach.kind) {
        case Breach::Kind::pool_size:
            return fmt::format("{}: {} teams; a pool has {} to {}", where, breach.teams.size(),
                               fewest_in_pool, most_in_pool);
        case Breach::Kind::uneven_pools:
            return fmt::format("{} has {} teams more than the smallest pool", where,
                               breach.distance);
        case Breach::Kind::same_club:
            return fmt::format("{}: {} and {} are of one club, {}", where, name(0), name(1),
                               entries[breach.teams[0] - 1U].club);
        case Breach::Kind::same_last_pool:
            return fmt::format("{}: {} and {} met in pool {} of the last event", where, name(0),
                               name(1), entries[breach.teams[0] - 1U].last_pool);
        case Breach::Kind::seed_distance:
            break;
    }
    return fmt::format("{}: {} (seed {}) is {} places from where the seeds put it", where, name(0),
                       breach.teams[0], breach.distance);
}

std::vector<std::string> breaches_of_every_draw(const std::vector<Entry>& entries,
                                                std::size_t pools) {
    std::vector<std::string> found;
    const auto look = [&](std::string Entry::*field, const char* what) {
        std::map<std::string_view, std::size_t> teams;
        for (const Entry& entry : entries)
            if (!(entry.*field).empty()) ++teams[entry.*field];
        for (const auto& [name, count] : teams)
            if (count > pools)
                found.push_back(
                    fmt::format("{} teams {} {}, and there {} {}: two of them meet in any draw",
                                count, what, name, pools == 1 ? "is" : "are",
                                pools == 1 ? "1 pool" : fmt::format("{} pools", pools)));
    };
    look(&Entry::club, "are of one club,");
    look(&Entry::last_pool, "met in the last event, in pool");
    return found;
}

std::variant<Change, Faults> move_team(const Pools& pools, const std::vector<Entry>& entries,
                                       const DrawLimits& limits, Seed team, std::size_t to_pool) {
    Faults faults = faults_of_draw(pools, entries);
    const auto from = pool_of(pools, team);
    if (!from) faults.push_back(not_drawn(team));
    if (to_pool >= pools.size())
        faults.push_back({"pools", fmt::format("there is no pool {}", to_pool + 1),
                          fmt::format("name one of the {} pools", pools.size())});
    else if (from == to_pool)
        faults.push_back({"pools",
                          fmt::format("seed {} is in pool {} already", team, pool_name(to_pool)),
                          "name another pool"});
    if (!faults.empty()) return faults;
    Pools after = pools;
    auto& left = after[*from];
    left.erase(std::find(left.begin(), left.end(), team));
    after[to_pool].push_back(team);
    return changed(pools, std::move(after), entries, limits);
}

std::variant<Change, Faults> swap_teams(const Pools& pools, const std::vector<Entry>& entries,
                                        const DrawLimits& limits, Seed a, Seed b) {
    Faults faults = faults_of_draw(pools, entries);
    const auto pool_a = pool_of(pools, a);
    const auto pool_b = pool_of(pools, b);
    if (!pool_a) faults.push_back(not_drawn(a));
    if (!pool_b) faults.push_back(not_drawn(b));
    if (faults.empty() && pool_a == pool_b)
        faults.push_back(
            {"pools", fmt::format("seeds {} and {} are both in pool {}", a, b, pool_name(*pool_a)),
             "name teams of two pools"});
    if (!faults.empty()) return faults;
    Pools after = pools;
    std::replace(after[*pool_a].begin(), after[*pool_a].end(), a, b);
    auto& other = after[*pool_b];
    *std::find(other.begin(), other.end(), b) = a;
    return changed(pools, std::move(after), entries, limits);
}

}  // namespace courthand::draw
