// The simulator plays whole matches of every built-in profile, the same for the same seed, with
// everything in them that the other tests rely on.
#include <gtest/gtest.h>

#include <map>
#include <vector>

#include "courthand/rules/judge.h"
#include "courthand/sim/match_player.h"

namespace courthand::sim {
namespace {

/// More steps than any match of five sets needs.
constexpr int most_steps = 5000;

struct Played {
    std::vector<Record> records;
    MatchState state;
    std::map<std::size_t, int> kinds;  ///< facts by the index of their kind
    int raised = 0;
};

Played play(const Rules& rules, std::uint64_t seed) {
    Played played;
    MatchPlayer player{seed};
    played.records.push_back(Fact{MatchOpened{rules.format}});
    const auto refold = [&] {
        const Effective now = effective(played.records);
        played.state = fold(rules, now.entries);
        return now;
    };
    Effective now = refold();
    for (int step = 0; step < most_steps; ++step) {
        const auto next = player.next(rules, played.state);
        if (!next) break;
        if (next->fact) {
            ++played.kinds[next->fact->index()];
            played.records.push_back(*next->fact);
            const auto number = static_cast<EntryNumber>(played.records.size());
            VerdictList verdicts;
            apply(rules, played.state, Entry{number, *next->fact}, verdicts);
            played.raised += static_cast<int>(verdicts.size());
        } else {
            now = refold();
            EntryNumber last = 0;
            for (const Entry& entry : now.entries) last = std::max(last, entry.number);
            played.records.push_back(Strike{last});
            refold();
        }
    }
    return played;
}

template <class T>
std::size_t kind() {
    return Fact{T{}}.index();
}

class EveryProfile : public testing::TestWithParam<std::string> {};

TEST_P(EveryProfile, MatchesAreFinished) {
    const Profile* profile = find_profile(GetParam());
    ASSERT_NE(profile, nullptr);
    std::size_t longest = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Played played = play(profile->rules, seed);
        EXPECT_EQ(played.state.set.stage, Stage::match_over) << "seed " << seed;
        // An accepted "team short" ends a set at once, so not every match is a long one.
        longest = std::max(longest, played.records.size());
        EXPECT_LT(played.records.size(), most_entries) << "seed " << seed;
    }
    // Every set has at least 25 rallies, each with a service and a point.
    EXPECT_GT(longest, profile->rules.format.sets * std::size_t{50});
}

TEST_P(EveryProfile, TheSameSeedPlaysTheSameMatch) {
    const Profile* profile = find_profile(GetParam());
    const Played one = play(profile->rules, 7);
    EXPECT_EQ(one.records, play(profile->rules, 7).records);
    EXPECT_NE(one.records, play(profile->rules, 8).records);
}

TEST_P(EveryProfile, EverythingHappensSomewhere) {
    const Profile* profile = find_profile(GetParam());
    std::map<std::size_t, int> kinds;
    int raised = 0;
    for (std::uint64_t seed = 1; seed <= 80; ++seed) {
        const Played played = play(profile->rules, seed);
        for (const auto& [which, count] : played.kinds) kinds[which] += count;
        raised += played.raised;
    }
    EXPECT_GT(kinds[kind<LiberoReplacement>()], 80 * 10);
    EXPECT_GT(kinds[kind<Substitution>()], 30);
    EXPECT_GT(kinds[kind<TimeOut>()], 30);
    // With one libero only, both a second one and the consent are rarer than this sample shows.
    if (profile->rules.liberos_per_set > 1) {
        EXPECT_GT(kinds[kind<Redesignation>()], 0);
    }
    EXPECT_GT(kinds[kind<Ruling>()], 0);
    EXPECT_GT(kinds[kind<CourtSwitch>()], 0);
    EXPECT_GT(raised, 30);
}

INSTANTIATE_TEST_SUITE_P(Profiles, EveryProfile, testing::ValuesIn(profile_ids()),
                         [](const auto& tested) {
                             std::string name = tested.param;
                             for (char& c : name)
                                 if (c == '-') c = '_';
                             return name;
                         });

}  // namespace
}  // namespace courthand::sim
