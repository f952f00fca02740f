// Orders of play: which matches of a round robin are played at the same time, and in which order.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include "courthand/draw/round_robin.h"
#include "draw/limits.h"
#include "draw/work_duties.h"

namespace courthand::draw {
namespace {

using Slots = std::vector<std::vector<Pairing>>;

struct Printed {
    std::uint16_t first;
    std::uint16_t second;
    std::uint16_t worker;
};

// One-court orders as printed: for three and four teams from a published template of a tournament
// day (four: the two top seeds work twice); for five one in which no team plays twice running.
constexpr std::array three{Printed{1, 3, 2}, Printed{2, 3, 1}, Printed{1, 2, 3}};
constexpr std::array four{Printed{1, 3, 2}, Printed{2, 4, 1}, Printed{1, 4, 3},
                          Printed{2, 3, 1}, Printed{3, 4, 2}, Printed{1, 2, 4}};
constexpr std::array five{Printed{1, 4, 2}, Printed{2, 3, 1}, Printed{1, 5, 2}, Printed{2, 4, 1},
                          Printed{3, 5, 4}, Printed{1, 2, 3}, Printed{3, 4, 5}, Printed{2, 5, 4},
                          Printed{1, 3, 5}, Printed{4, 5, 3}};

template <std::size_t N>
[[nodiscard]] OrderOfPlay as_printed(const std::array<Printed, N>& lines) {
    OrderOfPlay order;
    for (const Printed& p : lines)
        order.fixtures.push_back({order.slots++, 0, {p.first, p.second}, p.worker});
    return order;
}

[[nodiscard]] bool share_a_team(Pairing a, Pairing b) noexcept {
    return a.first == b.first || a.first == b.second || a.second == b.first || a.second == b.second;
}

/// Moves matches from a slot into a smaller one. Together they are chains of matches in which the
/// two slots alternate; a chain with one match more of the larger slot changes sides.
void level(std::vector<Pairing>& larger, std::vector<Pairing>& smaller) {
    std::vector<std::pair<Pairing, bool>> rest;  // whether it is of the larger slot
    rest.reserve(larger.size() + smaller.size());
    for (const Pairing p : larger) rest.emplace_back(p, true);
    for (const Pairing p : smaller) rest.emplace_back(p, false);
    std::size_t to_change = (larger.size() - smaller.size()) / 2;
    larger.clear();
    smaller.clear();
    while (!rest.empty()) {
        std::vector<std::pair<Pairing, bool>> chain{rest.back()};
        rest.pop_back();
        for (std::size_t i = 0; i < chain.size(); ++i) {
            const auto linked = [&](const auto& r) {
                return share_a_team(r.first, chain[i].first);
            };
            for (auto it = std::find_if(rest.begin(), rest.end(), linked); it != rest.end();
                 it = std::find_if(rest.begin(), rest.end(), linked)) {
                chain.push_back(*it);
                rest.erase(it);
            }
        }
        const auto ours =
            std::count_if(chain.begin(), chain.end(), [](const auto& c) { return c.second; });
        const bool longer = 2 * static_cast<std::size_t>(ours) > chain.size();
        const bool change = longer && to_change > 0;
        if (change) --to_change;
        for (const auto& link : chain) {
            if (link.second != change)
                larger.push_back(link.first);
            else
                smaller.push_back(link.first);
        }
    }
}

/// The rounds of a number of teams that was checked.
[[nodiscard]] std::vector<Round> rounds_of(std::uint16_t teams) {
    return std::get<std::vector<Round>>(circle(teams));
}

/// All pairs in as few slots of at most `courts` matches as there can be. Starts from the rounds of
/// the circle and levels the sizes of slots, which is always possible (McDiarmid 1972).
[[nodiscard]] Slots slots_of(std::uint16_t teams, std::size_t courts) {
    Slots slots;
    for (const Round& round : rounds_of(teams)) slots.push_back(round.matches);
    const std::size_t matches = static_cast<std::size_t>(teams) * (teams - 1U) / 2;
    while (slots.size() * courts < matches) slots.emplace_back();
    const auto by_size = [](const auto& a, const auto& b) { return a.size() < b.size(); };
    while (true) {
        const auto largest = std::max_element(slots.begin(), slots.end(), by_size);
        if (largest->size() <= courts) return slots;
        level(*largest, *std::min_element(slots.begin(), slots.end(), by_size));
    }
}

/// Slots since each team last played.
class Rest {
  public:
    explicit Rest(std::uint16_t teams) : last_(static_cast<std::size_t>(teams) + 1, never) {}

    void play(const std::vector<Pairing>& slot) {
        ++now_;
        for (const Pairing p : slot) last_[p.first] = last_[p.second] = now_;
    }
    /// The rests of the teams of a slot, shortest first: greater is better.
    [[nodiscard]] std::vector<int> before(const std::vector<Pairing>& slot) const {
        std::vector<int> rests;
        for (const Pairing p : slot) {
            rests.push_back(now_ - last_[p.first]);
            rests.push_back(now_ - last_[p.second]);
        }
        std::sort(rests.begin(), rests.end());
        return rests;
    }

  private:
    static constexpr int never = -1000;
    int now_ = 0;
    std::vector<int> last_;
};

/// The slots in an order that gives teams rest: each time the one whose teams have rested longest.
[[nodiscard]] Slots with_rest(Slots slots, std::uint16_t teams) {
    Slots order;
    Rest rest{teams};
    while (!slots.empty()) {
        const auto next = std::max_element(
            slots.begin(), slots.end(),
            [&](const auto& a, const auto& b) { return rest.before(a) < rest.before(b); });
        rest.play(*next);
        order.push_back(std::move(*next));
        slots.erase(next);
    }
    return order;
}

/// What runs of matches cost a team: long ones far more than many short ones.
[[nodiscard]] long cost_of_runs(const Slots& slots, std::uint16_t teams) {
    std::vector<long> run(static_cast<std::size_t>(teams) + 1, 0);
    long cost = 0;
    const auto end = [&](long& length) {
        cost += length * length * length * length;
        length = 0;
    };
    for (const auto& slot : slots) {
        std::vector<bool> plays(run.size(), false);
        for (const Pairing p : slot) plays[p.first] = plays[p.second] = true;
        for (std::size_t t = 1; t < run.size(); ++t) {
            if (plays[t])
                ++run[t];
            else
                end(run[t]);
        }
    }
    for (std::size_t t = 1; t < run.size(); ++t) end(run[t]);
    return cost;
}

/// Lets slots change places, or one move to another place, as long as that makes runs shorter.
void shorten_runs(Slots& slots, std::uint16_t teams) {
    long least = cost_of_runs(slots, teams);
    const auto better = [&](const Slots& tried) {
        const long cost = cost_of_runs(tried, teams);
        if (cost >= least) return false;
        least = cost;
        return true;
    };
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t i = 0; i < slots.size(); ++i)
            for (std::size_t k = 0; k < slots.size(); ++k) {
                if (i == k) continue;
                Slots tried = slots;
                std::swap(tried[i], tried[k]);
                if (!better(tried)) {
                    tried = slots;
                    const auto from = tried.begin() + static_cast<std::ptrdiff_t>(std::min(i, k));
                    const auto to = tried.begin() + static_cast<std::ptrdiff_t>(std::max(i, k));
                    if (i < k)
                        std::rotate(from, from + 1, to + 1);
                    else
                        std::rotate(from, to, to + 1);
                    if (!better(tried)) continue;
                }
                slots = std::move(tried);
                changed = true;
            }
    }
}

/// One court: round by round, within a round the match whose teams have rested longest. From six
/// teams on a round always has a match with neither team of the one just played.
[[nodiscard]] Slots one_at_a_time(std::uint16_t teams) {
    Slots order;
    Rest rest{teams};
    for (Round& round : rounds_of(teams))
        while (!round.matches.empty()) {
            const auto next = std::max_element(
                round.matches.begin(), round.matches.end(),
                [&](Pairing a, Pairing b) { return rest.before({a}) < rest.before({b}); });
            rest.play({*next});
            order.push_back({*next});
            round.matches.erase(next);
        }
    return order;
}

}  // namespace

std::variant<OrderOfPlay, Faults> order_of_play(std::uint16_t teams, std::uint16_t courts) {
    Faults faults = faults_of_round_robin(teams);
    if (courts == 0)
        faults.push_back({"round robin", "no court to play on", "give at least one court"});
    if (!faults.empty()) return faults;
    if (courts == 1 && teams == 3) return as_printed(three);
    if (courts == 1 && teams == 4) return as_printed(four);
    if (courts == 1 && teams == 5) return as_printed(five);
    Slots slots = courts == 1 ? one_at_a_time(teams) : with_rest(slots_of(teams, courts), teams);
    if (courts > 1) shorten_runs(slots, teams);
    OrderOfPlay order;
    for (const std::vector<Pairing>& slot : slots) {
        const auto at_once = static_cast<std::uint16_t>(slot.size());  // a match a court
        for (std::uint16_t c = 0; c < at_once; ++c)
            order.fixtures.push_back({order.slots, c, slot[c], std::nullopt});
        ++order.slots;
    }
    assign_workers(order, teams);
    return order;
}

OrderOfPlay with_second_leg(OrderOfPlay order) {
    const std::size_t first_leg = order.fixtures.size();
    order.fixtures.reserve(2 * first_leg);
    for (std::size_t i = 0; i < first_leg; ++i) {
        Fixture again = order.fixtures[i];
        again.slot = static_cast<std::uint16_t>(again.slot + order.slots);
        std::swap(again.teams.first, again.teams.second);
        order.fixtures.push_back(again);
    }
    order.slots = static_cast<std::uint16_t>(2 * order.slots);
    order.from_elsewhere = static_cast<std::uint16_t>(2 * order.from_elsewhere);
    note_elsewhere(order);
    return order;
}

Demands demands_of(const OrderOfPlay& order, std::uint16_t teams) {
    Demands demands;
    demands.fewest_duties = std::numeric_limits<std::uint16_t>::max();
    for (std::uint16_t t = 1; t <= teams; ++t) {
        std::uint16_t duties = 0;
        std::uint16_t in_a_row = 0;
        for (std::uint16_t slot = 0; slot < order.slots; ++slot) {
            bool plays = false;
            for (const Fixture& f : order.fixtures) {
                if (f.slot != slot) continue;
                plays = plays || f.teams.first == t || f.teams.second == t;
                if (f.worker == t) ++duties;
            }
            in_a_row = static_cast<std::uint16_t>(plays ? in_a_row + 1 : 0);
            demands.most_in_a_row = std::max(demands.most_in_a_row, in_a_row);
        }
        demands.fewest_duties = std::min(demands.fewest_duties, duties);
        demands.most_duties = std::max(demands.most_duties, duties);
    }
    return demands;
}

}  // namespace courthand::draw
