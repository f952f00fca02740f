#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "courthand/draw/round_robin.h"

namespace courthand::draw {
namespace {

[[nodiscard]] std::variant<OrderOfPlay, Faults> order_on(std::uint16_t teams, std::uint16_t courts,
                                                         bool second_leg) {
    auto order = order_of_play(teams, courts);
    if (auto* once = std::get_if<OrderOfPlay>(&order); once && second_leg)
        return with_second_leg(std::move(*once));
    return order;
}

/// How often each pair meets: the fewest and the most, over all pairs there are.
[[nodiscard]] std::pair<int, int> meetings(const OrderOfPlay& order, std::uint16_t teams) {
    std::map<std::pair<std::uint16_t, std::uint16_t>, int> met;
    for (std::uint16_t a = 1; a <= teams; ++a)
        for (std::uint16_t b = static_cast<std::uint16_t>(a + 1); b <= teams; ++b) met[{a, b}] = 0;
    for (const Fixture& f : order.fixtures) ++met[std::minmax(f.teams.first, f.teams.second)];
    const auto [fewest, most] = std::minmax_element(
        met.begin(), met.end(), [](const auto& x, const auto& y) { return x.second < y.second; });
    return {fewest->second, most->second};
}

[[nodiscard]] std::string range(int fewest, int most) {
    if (fewest == most) return fmt::format("{}", most);
    return fmt::format("{} {} {}", fewest, most == fewest + 1 ? "or" : "to", most);
}

[[nodiscard]] std::string times(int fewest, int most) {
    if (fewest == 1 && most == 1) return "once";
    if (fewest == 2 && most == 2) return "twice";
    return range(fewest, most) + " times";
}

}  // namespace

std::vector<std::string> order_in_words(std::uint16_t teams, bool second_leg) {
    const auto one_court = order_on(teams, 1, second_leg);
    const auto* const order = std::get_if<OrderOfPlay>(&one_court);
    if (order == nullptr) return {};
    const auto [fewest, most] = meetings(*order, teams);
    const Demands demands = demands_of(*order, teams);
    std::vector<std::string> lines{
        fmt::format("a pool of {}: {} matches, each pair {}; at most {} in a row for a team; "
                    "duties of each: {}",
                    teams, order->fixtures.size(), times(fewest, most), demands.most_in_a_row,
                    range(demands.fewest_duties, demands.most_duties))};
    if (!order->note.empty()) lines.push_back(fmt::format("a pool of {}: {}", teams, order->note));
    const auto two_courts = order_on(teams, 2, second_leg);
    const auto& faster = std::get<OrderOfPlay>(two_courts);
    if (faster.slots < order->slots && !faster.note.empty())
        lines.push_back(fmt::format("a pool of {} on two courts: {}", teams, faster.note));
    return lines;
}

}  // namespace courthand::draw
