#include "forecast/outcomes.h"

#include <algorithm>
#include <array>

namespace courthand::forecast {
namespace {

constexpr std::array winners{Winner::A, Winner::B, Winner::nobody};

}  // namespace

std::vector<Outcome> outcomes_of(const MatchCourse& course, std::uint32_t parts) {
    std::vector<Outcome> outcomes;
    outcomes.reserve(parts);
    double sum = 0;
    const auto see = [&](double chance, const Outcome& outcome) {
        sum += chance;
        while (outcomes.size() < parts &&
               (static_cast<double>(outcomes.size()) + 0.5) / parts < sum)
            outcomes.push_back(outcome);
    };
    for (std::size_t sets = 0; sets <= MatchFormat::most_sets; ++sets) {
        std::size_t longest = 0;
        for (const auto& by_sets : course.by) longest = std::max(longest, by_sets[sets].size());
        for (std::size_t n = 0; n < longest; ++n)
            for (const Winner winner : winners) {
                const Lengths& lengths = course.by[static_cast<std::size_t>(winner)][sets];
                if (n < lengths.size())
                    see(lengths[n],
                        {static_cast<std::uint16_t>(n), static_cast<std::uint8_t>(sets), winner});
            }
    }
    // What rounding left over belongs to the longest end.
    while (!outcomes.empty() && outcomes.size() < parts) outcomes.push_back(outcomes.back());
    return outcomes;
}

}  // namespace courthand::forecast
