#include "courthand/standings/pool.h"

#include <fmt/format.h>

#include <algorithm>

#include "standings/tally.h"

namespace courthand::standings {
namespace {

class Check {
  public:
    Check(const Chain& chain, const Pool& pool) : chain_{chain}, pool_{pool} {}

    Faults run() {
        teams();
        if (!faults_.empty()) return faults_;
        for (std::size_t i = 0; i < pool_.results.size(); ++i) result(i);
        same_moment();
        for (const Decision& d : pool_.decisions) decision(d);
        for (const Withdrawal& w : pool_.withdrawals)
            if (w.team >= pool_.teams.size())
                say(where(), "a team that is not in the pool is withdrawn",
                    "name one of its teams");
        for (const std::uint16_t cut : pool_.cuts)
            if (cut == 0 || cut >= pool_.teams.size())
                say(where(), fmt::format("place {} cannot be the last that goes on", cut),
                    fmt::format("give a place from 1 to {}", pool_.teams.size() - 1));
        return faults_;
    }

  private:
    void say(std::string place, std::string message, std::string cure) {
        faults_.push_back({std::move(place), std::move(message), std::move(cure)});
    }
    [[nodiscard]] std::string where() const { return fmt::format("pool {}", pool_.name); }

    void teams() {
        const std::size_t n = pool_.teams.size();
        if (n < Pool::fewest_teams)
            say(where(), fmt::format("a pool of {} has no match", n == 1 ? "one" : "none"),
                "put the team into another pool");
        if (n > Pool::most_teams)
            say(where(), fmt::format("{} teams; a pool has {} at most", n, Pool::most_teams),
                "make more pools");
        if (pool_.results.size() > Pool::most_results)
            say(where(),
                fmt::format("{} results; a pool has {} at most", pool_.results.size(),
                            Pool::most_results),
                "give each match once");
        std::vector<std::string> names = pool_.teams;
        std::sort(names.begin(), names.end());
        const auto twice = std::adjacent_find(names.begin(), names.end());
        if (twice != names.end())
            say(where(), fmt::format("two teams are called \"{}\"", *twice),
                "give one of them another name");
    }

    void result(std::size_t i) {
        const Result& r = pool_.results[i];
        const std::string place = fmt::format("pool {}, result {}", pool_.name, i + 1);
        if (r.first >= pool_.teams.size() || r.second >= pool_.teams.size()) {
            say(place, "a team that is not in the pool", "name one of its teams");
            return;
        }
        if (r.first == r.second) {
            say(place, "a team plays against itself", "name two teams");
            return;
        }
        const std::string match =
            fmt::format("{}, {} - {}", place, pool_.teams[r.first], pool_.teams[r.second]);
        if (r.ending == Ending::played && r.detail != Detail::winner) sets(r, match);
        if (faults_.empty()) worth(r, match);
    }

    void sets(const Result& r, const std::string& match) {
        const int count = r.first_sets + r.second_sets;
        if (count == 0) say(match, "no set was played", "give the sets, or who forfeited");
        if (count > static_cast<int>(Result::most_sets)) {
            say(match, fmt::format("{} sets; a match has {} at most", count, Result::most_sets),
                "correct the result");
            return;
        }
        if (r.detail != Detail::points) return;
        for (int i = 0; i < count; ++i) {
            const SetScore s = r.scores[static_cast<std::size_t>(i)];
            if (s.first == s.second)
                say(match, fmt::format("set {} is level at {}-{}", i + 1, s.first, s.second),
                    "correct the score: a set has a winner");
        }
    }

    void worth(const Result& r, const std::string& match) {
        if (chain_.worth.empty() || r.detail == Detail::winner) return;
        if (match_points(chain_, r, true) && match_points(chain_, r, false)) return;
        say(match,
            fmt::format("{} gives no match points for {}-{}", chain_.id, r.first_sets,
                        r.second_sets),
            "correct the result, or choose a chain for this format");
    }

    void same_moment() {
        const auto& all = pool_.results;
        std::vector<std::array<std::uint32_t, 3>> keys;
        keys.reserve(all.size());
        for (const Result& r : all)
            keys.push_back({std::min(r.first, r.second), std::max(r.first, r.second), r.order});
        std::sort(keys.begin(), keys.end());
        const auto twice = std::adjacent_find(keys.begin(), keys.end());
        if (twice == keys.end() || (*twice)[1] >= pool_.teams.size()) return;
        say(where(),
            fmt::format("two results of {} - {} with the same place in time",
                        pool_.teams[(*twice)[0]], pool_.teams[(*twice)[1]]),
            "strike one, or say which match was later");
    }

    void decision(const Decision& d) {
        TeamSet seen = 0;
        for (const TeamIndex team : d.order) {
            if (team >= pool_.teams.size()) {
                say(where(), "a decision names a team that is not in the pool",
                    "name teams of the pool");
                return;
            }
            if ((seen & bit(team)) != 0)
                say(where(), fmt::format("a decision names {} twice", pool_.teams[team]),
                    "name each team once");
            seen |= bit(team);
        }
        if (d.order.size() < 2)
            say(where(), "a decision orders fewer than two teams", "name all teams it orders");
    }

    const Chain& chain_;
    const Pool& pool_;
    Faults faults_;
};

}  // namespace

Result::Winner Result::winner() const noexcept {
    switch (ending) {
        case Ending::forfeit_by_first:
            return Winner::second;
        case Ending::forfeit_by_second:
            return Winner::first;
        case Ending::forfeit_by_both:
            return Winner::none;
        case Ending::played:
            break;
    }
    if (detail == Detail::winner) return first_won ? Winner::first : Winner::second;
    if (first_sets == second_sets) return Winner::none;
    return first_sets > second_sets ? Winner::first : Winner::second;
}

Result result_in_points(TeamIndex first, TeamIndex second, const std::vector<SetScore>& scores,
                        std::uint32_t order) {
    Result r;
    r.first = first;
    r.second = second;
    r.order = order;
    // More sets than there is room for are counted, so that the check of the pool finds them.
    const std::size_t counted = std::min<std::size_t>(scores.size(), 2 * Result::most_sets);
    for (std::size_t i = 0; i < counted; ++i) {
        if (i < Result::most_sets) r.scores[i] = scores[i];
        if (scores[i].first > scores[i].second)
            ++r.first_sets;
        else
            ++r.second_sets;
    }
    return r;
}

Result result_in_sets(TeamIndex first, TeamIndex second, std::uint8_t first_sets,
                      std::uint8_t second_sets, std::uint32_t order) {
    Result r;
    r.first = first;
    r.second = second;
    r.order = order;
    r.detail = Detail::sets;
    r.first_sets = first_sets;
    r.second_sets = second_sets;
    return r;
}

Result result_by_winner(TeamIndex first, TeamIndex second, bool first_won, std::uint32_t order) {
    Result r;
    r.first = first;
    r.second = second;
    r.order = order;
    r.detail = Detail::winner;
    r.first_won = first_won;
    return r;
}

Faults faults_of(const Chain& chain, const Pool& pool) {
    return Check{chain, pool}.run();
}

}  // namespace courthand::standings
