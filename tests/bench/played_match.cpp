#include "tests/bench/played_match.h"

#include <stdexcept>

#include "courthand/rules/judge.h"
#include "courthand/sim/match_player.h"

namespace courthand::bench {
namespace {

/// More steps than any match of five sets needs.
constexpr int most_steps = 5000;

PlayedMatch play(const Rules& rules, std::uint64_t seed, const sim::Habits& habits) {
    sim::MatchPlayer player{seed, habits};
    PlayedMatch match{{1, MatchOpened{rules.format}}};
    MatchState state = fold(rules, match);
    VerdictList raised;
    for (int step = 0; step < most_steps; ++step) {
        const auto next = player.next(rules, state);
        if (!next) break;
        if (!next->fact) {
            // Taken back: it no longer counts, as if it had been struck and the record refolded.
            match.pop_back();
            state = fold(rules, match);
            continue;
        }
        match.push_back({static_cast<EntryNumber>(match.size() + 1), *next->fact});
        apply(rules, state, match.back(), raised);
    }
    return match;
}

}  // namespace

PlayedMatch played_match(const Rules& rules, std::uint64_t seed) {
    return play(rules, seed, sim::Habits{});
}

std::vector<PlayedMatch> played_matches(const Rules& rules, std::size_t entries) {
    std::vector<PlayedMatch> matches;
    std::size_t count = 0;
    for (std::uint64_t seed = 1; count < entries; ++seed) {
        matches.push_back(played_match(rules, seed));
        count += matches.back().size();
    }
    return matches;
}

PlayedMatch long_match(const Rules& rules, std::size_t entries) {
    Rules longer = rules;
    longer.format.points = 40;
    sim::Habits habits;
    habits.whistle = 1000;
    habits.replacement = 900;
    for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
        PlayedMatch match = play(longer, seed, habits);
        if (match.size() < entries) continue;
        match.resize(entries);
        return match;
    }
    throw std::logic_error{"no simulated match is that long"};
}

}  // namespace courthand::bench
