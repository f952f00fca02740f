#include "tests/bench/random_matches.h"

#include "random_play.h"

namespace courthand::bench {

std::vector<PlayedMatch> random_matches(const Rules& rules, std::size_t entries) {
    constexpr std::size_t length = 1500;
    std::vector<PlayedMatch> matches;
    for (std::uint64_t seed = 1; matches.size() * length < entries; ++seed) {
        testing::RandomPlay play{rules, seed};
        while (play.entries().size() < length) play.next();
        matches.push_back(play.entries());
    }
    return matches;
}

}  // namespace courthand::bench
