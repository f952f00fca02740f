#include "courthand/draw/round_robin.h"

#include <fmt/format.h>

#include <algorithm>

#include "draw/limits.h"

namespace courthand::draw {

Faults faults_of_round_robin(std::uint16_t teams) {
    if (teams < fewest_in_round_robin)
        return {{"round robin", "a round robin of one team has no match",
                 "put the team into another pool"}};
    if (teams > most_in_round_robin)
        return {{"round robin",
                 fmt::format("{} teams; a round robin has {} at most", teams, most_in_round_robin),
                 "make more pools"}};
    return {};
}

std::variant<std::vector<Round>, Faults> circle(std::uint16_t teams) {
    Faults faults = faults_of_round_robin(teams);
    if (!faults.empty()) return faults;
    // The teams in a circle, an idle place (0) after the last when their number is odd.
    std::vector<std::uint16_t> seats;
    for (std::uint16_t t = 1; t <= teams; ++t) seats.push_back(t);
    if (teams % 2 != 0) seats.push_back(0);
    std::vector<Round> rounds;
    for (std::size_t r = 1; r < seats.size(); ++r) {
        Round round;
        for (std::size_t i = 0; i < seats.size() / 2; ++i) {
            const std::uint16_t a = seats[i];
            const std::uint16_t b = seats[seats.size() - 1 - i];
            if (a == 0 || b == 0)
                round.idle = std::max(a, b);
            else
                round.matches.push_back({a, b});
        }
        rounds.push_back(std::move(round));
        std::rotate(seats.begin() + 1, seats.end() - 1, seats.end());
    }
    return rounds;
}

}  // namespace courthand::draw
