// Tasks for the planner, as halls have them: pools of four on their courts, brackets after them.
#pragma once

#include <string>
#include <vector>

#include "courthand/plan/task.h"

namespace courthand::testkit {

/// Invented, without names: "T1" to "T…", pools "A" on, matches "A1" to "A6", "M1" on.
struct Hall {
    int pools = 1;
    int courts = 1;
    int days = 1;
    bool duties = true;     ///< in pools a team works that does not play
    bool brackets = false;  ///< for the first two and the last two of each pool
    plan::Minute opens = 480;
    plan::Minute closes = 1320;
    plan::Minute duration = 60;
    plan::Minute rest = 20;
};

class HallMaker {
  public:
    explicit HallMaker(const Hall& hall) : hall_{hall} {}

    [[nodiscard]] plan::PlanTask task() {
        task_.groups.push_back({"U16", hall_.rest, hall_.duration, 0, 0, {}});
        for (int c = 0; c < hall_.courts; ++c) {
            plan::TaskCourt court{std::to_string(c + 1), {}, {}, {}};
            for (int d = 0; d < hall_.days; ++d)
                court.open.push_back({{hall_.opens + d * day, hall_.closes + d * day},
                                      static_cast<plan::DayIndex>(d)});
            task_.courts.push_back(court);
        }
        for (int p = 0; p < hall_.pools; ++p) add_pool(p);
        if (hall_.brackets)
            for (int first = 0; first < 4; first += 2) add_bracket(first);
        return std::move(task_);
    }

  private:
    static constexpr plan::Minute day = 24 * 60;

    [[nodiscard]] plan::PartyIndex party(plan::Party::Kind kind, std::string name,
                                         std::vector<plan::MatchIndex> from = {}) {
        task_.parties.push_back({kind, std::move(name), std::move(from)});
        return static_cast<plan::PartyIndex>(task_.parties.size() - 1);
    }
    plan::MatchIndex add_match(std::string name, plan::PartyIndex one, plan::PartyIndex two) {
        plan::TaskMatch match;
        match.name = std::move(name);
        match.duration = hall_.duration;
        match.sides = {one, two};
        task_.matches.push_back(std::move(match));
        return static_cast<plan::MatchIndex>(task_.matches.size() - 1);
    }

    /// The order of play of a pool of four on one court, with who works: common practice, no
    /// source.
    void add_pool(int pool) {
        static constexpr int order[6][3] = {{0, 2, 1}, {1, 3, 0}, {0, 3, 2},
                                            {1, 2, 0}, {2, 3, 1}, {0, 1, 3}};
        std::vector<plan::PartyIndex> teams;
        for (int t = 0; t < 4; ++t)
            teams.push_back(
                party(plan::Party::Kind::team, "T" + std::to_string(task_.parties.size() + 1)));
        const std::string name(1, static_cast<char>('A' + pool));
        task_.pools.push_back(name);
        pool_matches_.emplace_back();
        for (const auto& [one, two, works] : order) {
            const auto number = pool_matches_.back().size() + 1;
            const auto match =
                add_match(name + std::to_string(number), teams[static_cast<std::size_t>(one)],
                          teams[static_cast<std::size_t>(two)]);
            pool_matches_.back().push_back(match);
            plan::TaskMatch& added = task_.matches[match];
            added.pool = static_cast<plan::PoolIndex>(pool);
            if (hall_.duties) added.workers = {teams[static_cast<std::size_t>(works)]};
            if (hall_.days > 1) added.latest_end = hall_.closes;
        }
    }

    /// Of two places of each pool; who is over in a round goes on without a match.
    void add_bracket(int first_place) {
        std::vector<plan::PartyIndex> entrants;
        for (int place = first_place; place < first_place + 2; ++place)
            for (std::size_t p = 0; p < pool_matches_.size(); ++p)
                entrants.push_back(party(plan::Party::Kind::expected,
                                         std::to_string(place + 1) + " of " + task_.pools[p],
                                         pool_matches_[p]));
        while (entrants.size() > 1) {
            std::vector<plan::PartyIndex> next;
            std::size_t size = 1;
            while (size < entrants.size()) size *= 2;
            const std::size_t byes = size - entrants.size();
            for (std::size_t i = 0; i < byes; ++i) next.push_back(entrants[i]);
            for (std::size_t i = byes, j = entrants.size() - 1; i < j; ++i, --j) {
                const std::string name = "M" + std::to_string(++bracket_matches_);
                const auto match = add_match(name, entrants[i], entrants[j]);
                if (hall_.days > 1) task_.matches[match].earliest = hall_.opens + day;
                next.push_back(party(plan::Party::Kind::expected, "winner of " + name, {match}));
            }
            entrants = std::move(next);
        }
    }

    Hall hall_;
    plan::PlanTask task_;
    std::vector<std::vector<plan::MatchIndex>> pool_matches_;
    int bracket_matches_ = 0;
};

[[nodiscard]] inline plan::PlanTask plan_task(const Hall& hall) {
    return HallMaker{hall}.task();
}

}  // namespace courthand::testkit
