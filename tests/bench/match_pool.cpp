#include "tests/bench/match_pool.h"

#include <utility>

#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"

namespace courthand::bench {

MatchPool::MatchPool(std::size_t count) {
    const Rules& rules = find_profile(measured_profile)->rules;
    for (std::uint64_t seed = 1; matches_.size() < count; ++seed) {
        PlayedMatch match = played_match(rules, seed);
        // Only what was played to its end: a finished match is what a server may let go of.
        if (fold(rules, match).set.stage == Stage::match_over) matches_.push_back(std::move(match));
    }
}

}  // namespace courthand::bench
