#include "courthand/standings/unvalued.h"

#include <fmt/format.h>

#include "standings/conditions.h"
#include "standings/tally.h"

namespace courthand::standings {

std::vector<std::string> unvalued(const Chain& chain, MatchLength length) {
    std::vector<std::string> missing;
    if (chain.worth.empty()) return missing;
    for (const Outcome& score : scores_of(length)) {
        if (score.winner == Result::Winner::second) continue;  // the same from the other side
        const Result result = result_in_sets(0, 1, score.first_sets, score.second_sets);
        if (!match_points(chain, result, true) || !match_points(chain, result, false))
            missing.push_back(fmt::format("{}-{}", score.first_sets, score.second_sets));
    }
    return missing;
}

}  // namespace courthand::standings
