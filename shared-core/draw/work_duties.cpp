#include "draw/work_duties.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace courthand::draw {
namespace {

/// Hands duties from team to team along chains of matches until nobody has two more than another
/// who could take one: the shortest such chain is a path in the graph of teams.
class Duties {
  public:
    Duties(OrderOfPlay& order, std::uint16_t teams)
        : order_{order}, teams_{teams}, counts_(static_cast<std::size_t>(teams) + 1, 0) {}

    void run() {
        for (Fixture& f : order_.fixtures) first_choice(f);
        while (level_once()) {
        }
    }

  private:
    [[nodiscard]] bool plays_in(std::uint16_t team, std::uint16_t slot) const {
        return std::any_of(order_.fixtures.begin(), order_.fixtures.end(), [&](const Fixture& f) {
            return f.slot == slot && (f.teams.first == team || f.teams.second == team);
        });
    }
    [[nodiscard]] bool works_in(std::uint16_t team, std::uint16_t slot) const {
        return std::any_of(order_.fixtures.begin(), order_.fixtures.end(),
                           [&](const Fixture& f) { return f.slot == slot && f.worker == team; });
    }
    [[nodiscard]] bool free_in(std::uint16_t team, std::uint16_t slot) const {
        return !plays_in(team, slot) && !works_in(team, slot);
    }

    /// The free team with the fewest duties; of those the one that works no match just before.
    void first_choice(Fixture& fixture) {
        std::optional<std::uint16_t> best;
        const auto load = [&](std::uint16_t t) {
            const bool before =
                fixture.slot > 0 && works_in(t, static_cast<std::uint16_t>(fixture.slot - 1));
            return std::pair{counts_[t], before};
        };
        for (std::uint16_t t = 1; t <= teams_; ++t)
            if (free_in(t, fixture.slot) && (!best || load(t) < load(*best))) best = t;
        fixture.worker = best;
        if (best) ++counts_[*best];
    }

    /// Takes a duty from a team with the most along a chain to one with two fewer, if there is one.
    bool level_once() {
        for (std::uint16_t from = 1; from <= teams_; ++from) {
            std::vector<std::optional<std::size_t>> by(counts_.size());
            std::vector<std::uint16_t> queue{from};
            for (std::size_t i = 0; i < queue.size(); ++i)
                for (std::size_t f = 0; f < order_.fixtures.size(); ++f) {
                    if (order_.fixtures[f].worker != queue[i]) continue;
                    reach(f, from, by, queue);
                }
            const auto least = std::min_element(queue.begin(), queue.end(), [&](auto a, auto b) {
                return counts_[a] < counts_[b];
            });
            if (counts_[*least] + 1 >= counts_[from]) continue;
            pass_on(*least, from, by);
            return true;
        }
        return false;
    }

    void reach(std::size_t f, std::uint16_t from, std::vector<std::optional<std::size_t>>& by,
               std::vector<std::uint16_t>& queue) const {
        for (std::uint16_t t = 1; t <= teams_; ++t) {
            if (t == from || by[t] || !free_in(t, order_.fixtures[f].slot)) continue;
            by[t] = f;
            queue.push_back(t);
        }
    }

    void pass_on(std::uint16_t last, std::uint16_t from,
                 const std::vector<std::optional<std::size_t>>& by) {
        ++counts_[last];
        --counts_[from];
        for (std::uint16_t taker = last; taker != from;) {
            Fixture& f = order_.fixtures[*by[taker]];
            const std::uint16_t giver = *f.worker;
            f.worker = taker;
            taker = giver;
        }
    }

    OrderOfPlay& order_;
    std::uint16_t teams_;
    std::vector<int> counts_;
};

}  // namespace

void assign_workers(OrderOfPlay& order, std::uint16_t teams) {
    Duties{order, teams}.run();
    order.from_elsewhere = static_cast<std::uint16_t>(std::count_if(
        order.fixtures.begin(), order.fixtures.end(), [](const Fixture& f) { return !f.worker; }));
    note_elsewhere(order);
}

void note_elsewhere(OrderOfPlay& order) {
    if (order.from_elsewhere == 0) return;
    order.note = fmt::format(
        "{} of {} matches need workers from elsewhere: too few teams of the pool are idle then",
        order.from_elsewhere, order.fixtures.size());
}

}  // namespace courthand::draw
