// What holds for every record, whatever was said.
#include <gtest/gtest.h>

#include <algorithm>

#include "courthand/event/advance.h"
#include "courthand/event/effects.h"
#include "courthand/tournament/graph.h"
#include "played_event.h"

namespace courthand::event {
namespace {

constexpr unsigned events = 60;
constexpr std::size_t facts_each = 140;

TEST(FoldLaws, APrefixWithTheRestAppliedIsTheWhole) {
    for (unsigned seed = 1; seed <= events; ++seed) {
        const auto facts = testing::PlayedEvent{seed}.facts(facts_each);
        const TournamentState whole = fold(facts);
        const std::span<const Fact> all{facts};
        for (const std::size_t cut : {std::size_t{0}, facts.size() / 3, facts.size() - 1}) {
            TournamentState state = fold(all.first(cut));
            for (const Fact& fact : all.subspan(cut)) fold_in(state, fact);
            ASSERT_TRUE(state == whole) << "seed " << seed << ", cut " << cut;
        }
    }
}

/// The incremental settlement against the one that settles a whole graph at once.
TEST(FoldLaws, EverySideIsWhatTheGraphSays) {
    std::size_t compared = 0;
    for (unsigned seed = 1; seed <= events; ++seed) {
        TournamentState state;
        for (const Fact& fact : testing::PlayedEvent{seed}.facts(facts_each)) {
            fold_in(state, fact);
            if (state.last() % 10 != 0) continue;
            for (DivisionIndex d = 0; d < state.divisions.size(); ++d) {
                const Division& division = state.divisions[d];
                const auto settled = tournament::settle(division.graph, outcomes(state, d));
                ASSERT_EQ(settled.size(), division.settled.size());
                for (std::size_t s = 0; s < settled.size(); ++s, ++compared) {
                    const Side side = division.settled[s];
                    ASSERT_EQ(static_cast<int>(side.state),
                              settled[s].state == tournament::Settled::State::team  ? 1
                              : settled[s].state == tournament::Settled::State::bye ? 2
                                                                                    : 0)
                        << "seed " << seed << " fact " << state.last() << " source " << s;
                    if (side.is_team()) {
                        ASSERT_EQ(side.team + 1, settled[s].team);
                    }
                }
            }
        }
    }
    EXPECT_GT(compared, 10'000u);
}

TEST(FoldLaws, OnlyAResultOfThePresentSidesCounts) {
    std::size_t doubtful = 0;
    for (unsigned seed = 1; seed <= events; ++seed) {
        const TournamentState state = fold(testing::PlayedEvent{seed}.facts(facts_each));
        for (const auto& [name, ref] : state.match_names) {
            const MatchState& match = state.match(ref);
            if (!match.result) continue;
            const bool same = state.side(ref, 0).team == match.result->teams[0] &&
                              state.side(ref, 1).team == match.result->teams[1];
            if (match.result_counts) {
                EXPECT_TRUE(same) << name;
            }
            doubtful += match.result_counts ? 0 : 1;
        }
    }
    EXPECT_GT(doubtful, 0u) << "the events never bring a result into doubt";
}

TEST(FoldLaws, TakingBackAndRestoringChangesNothingElse) {
    for (unsigned seed = 1; seed <= 10; ++seed) {
        const auto facts = testing::PlayedEvent{seed}.facts(facts_each);
        TournamentState state = fold(facts);
        const TournamentState before = state;
        fold_in(state, TakenBack{static_cast<FactNumber>(facts.size() / 2)});
        fold_in(state, TakenBack{state.last()});
        EXPECT_TRUE(difference(before, state).none()) << "seed " << seed;
        EXPECT_TRUE(before.divisions == state.divisions) << "seed " << seed;
    }
}

/// The first fact that can change when `fact` is taken back: the next one, unless `fact` took
/// something back, which is restored then, and may itself have no effect any more.
FactNumber first_touched(const TournamentState& state, FactNumber fact) {
    const auto* back = std::get_if<TakenBack>(&state.facts[fact - 1]);
    if (back == nullptr || back->fact >= fact) return fact + 1;
    return std::min(back->fact, first_touched(state, back->fact));
}

TEST(FoldLaws, WhatIsToldBeforeTakingBackIsWhatHappens) {
    for (unsigned seed = 1; seed <= 10; ++seed) {
        const TournamentState state = fold(testing::PlayedEvent{seed}.facts(facts_each));
        for (FactNumber fact = 5; fact <= state.last(); fact += 17) {
            if (!state.counts[fact - 1]) continue;
            const Effects told = effects_of_taking_back(state, fact);
            TournamentState after = state;
            fold_in(after, TakenBack{fact});
            EXPECT_EQ(told, difference(state, after)) << "seed " << seed << ", fact " << fact;
            for (const FactNumber lost : told.facts)
                EXPECT_GE(lost, first_touched(state, fact)) << "seed " << seed << ", fact " << fact;
        }
    }
}

TEST(FoldLaws, EveryFindingNamesAFactAPlaceAndACure) {
    std::size_t seen = 0;
    for (unsigned seed = 1; seed <= events; ++seed) {
        const TournamentState state = fold(testing::PlayedEvent{seed}.facts(facts_each));
        for (const Finding& finding : state.findings) {
            ++seen;
            EXPECT_GE(finding.fact, 1u);
            EXPECT_LE(finding.fact, state.last());
            EXPECT_FALSE(finding.fault.place.empty());
            EXPECT_FALSE(finding.fault.message.empty());
            EXPECT_FALSE(finding.fault.cure.empty());
        }
    }
    EXPECT_GT(seen, 100u);
}

/// Anything readable is taken, in any order.
TEST(FoldLaws, NoReadableFactIsRefused) {
    testing::Dice dice{77};
    TournamentState state;
    for (int i = 0; i < 3000; ++i) {
        const Fact fact = dice.draw_fact();
        ASSERT_FALSE(out_of_bounds(fact).has_value());
        fold_in(state, fact);
    }
    EXPECT_EQ(state.last(), 3000u);
}

}  // namespace
}  // namespace courthand::event
