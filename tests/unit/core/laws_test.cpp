// Laws that hold for every course of play, legal or not, under every profile.
#include <gtest/gtest.h>

#include <cstring>

#include "courthand/rules/judge.h"
#include "random_play.h"

namespace courthand {
namespace {

using testing::RandomPlay;

// Enough to meet every kind of fact under every profile; the long search is the oracle's.
constexpr int courses = 8;
constexpr int facts_each = 400;

class Laws : public ::testing::TestWithParam<std::string> {
  protected:
    const Profile& profile() const { return *find_profile(GetParam()); }
    const Rules& rules() const { return profile().rules; }
};

TEST_P(Laws, FoldingInTwoPartsIsFoldingAtOnce) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each; ++i) play.next();
        const std::span<const Entry> all{play.entries()};
        const MatchState whole = fold(rules(), all);
        for (std::size_t cut = seed % 7; cut <= all.size(); cut += 7) {
            const MatchState prefix = fold(rules(), all.first(cut));
            ASSERT_EQ(fold(rules(), all.subspan(cut), prefix), whole) << "seed " << seed;
        }
        ASSERT_EQ(state_hash(whole), state_hash(play.state()));
    }
}

TEST_P(Laws, JudgeAndApplyAreTheSame) {
    RandomPlay play{rules(), 4711};
    for (int i = 0; i < facts_each; ++i) {
        const MatchState before = play.state();
        const Entry entry = play.next();
        const Judged judged = judge(rules(), before, entry);
        ASSERT_EQ(judged.state, play.state());
    }
}

// Whatever the options of a state are called, the judge has the last word on them.
TEST_P(Laws, AnOptionIsLegalExactlyWhenTheJudgeRaisesNothing) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each / 4; ++i) {
            play.next();
            if (i % 20 != 0) continue;
            for (const Team team : {Team::A, Team::B}) {
                const LegalActions actions = legal_actions(rules(), play.state(), team);
                for (const auto* list : {&actions.replacements, &actions.substitutions,
                                         &actions.captains, &actions.redesignations}) {
                    for (const Option& option : *list) {
                        const Judged j = judge(rules(), play.state(), {1, option.fact});
                        bool objected = false;
                        for (const Verdict& v : j.verdicts)
                            objected |= v.phase == Phase::armed || v.phase == Phase::open;
                        ASSERT_EQ(option.legal, !objected) << "seed " << seed << " entry " << i;
                    }
                }
            }
        }
    }
}

/// Whether a legal option of the list leads to the same state.
bool offered(const std::vector<Option>& options, const Rules& rules, const MatchState& before,
             const MatchState& after) {
    for (const Option& option : options)
        if (option.legal && judge(rules, before, {1, option.fact}).state == after) return true;
    return false;
}

// Nothing legal is left out: every replacement of two numbers that the judge lets pass is offered.
TEST_P(Laws, EveryLegalReplacementIsOffered) {
    RandomPlay play{rules(), 31};
    for (int i = 0; i < facts_each; ++i) {
        play.next();
        if (i % 10 != 0) continue;
        for (const Team team : {Team::A, Team::B}) {
            const MatchState& state = play.state();
            const LegalActions actions = legal_actions(rules(), state, team);
            const TeamRecord& record = state.team[team];
            for (std::size_t in = 0; in < record.count; ++in)
                for (const SlotRecord& slot : state.set.team[team].slots) {
                    if (!slot.on_court.worn()) continue;
                    const LiberoReplacement fact{team, record.players[in].jersey, slot.on_court};
                    const Judged j = judge(rules(), state, {1, fact});
                    if (!j.verdicts.empty()) continue;
                    ASSERT_TRUE(offered(actions.replacements, rules(), state, j.state))
                        << "entry " << i << ": " << int{fact.in.number()} << " for "
                        << int{fact.out.number()};
                }
        }
    }
}

// Scores never go back but by a ruling, a correction or a forfeit; rallies give one point.
TEST_P(Laws, ARallyGivesOnePoint) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each; ++i) {
            const MatchState before = play.state();
            const Entry entry = play.next();
            const auto* rally = std::get_if<RallyWon>(&entry.fact);
            if (rally == nullptr || before.set.stage == Stage::set_over ||
                before.set.stage == Stage::match_over || before.set.stage == Stage::before_match ||
                before.set.interrupted != 0)
                continue;
            if (before.set.team.a.pending_penalties + before.set.team.b.pending_penalties > 0)
                continue;
            const Score was = before.set.score;
            const Score is = play.state().set.score;
            ASSERT_EQ(is.a - was.a, rally->team == Team::A ? 1 : 0) << "seed " << seed;
            ASSERT_EQ(is.b - was.b, rally->team == Team::B ? 1 : 0) << "seed " << seed;
            ASSERT_EQ(play.state().set.serving, rally->team);
        }
    }
}

TEST_P(Laws, NumbersOnCourtAreDistinct) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each; ++i) {
            play.next();
            for (const Team team : {Team::A, Team::B}) {
                const Six six = on_court(play.state().set.team[team]);
                for (std::size_t p = 0; p < six.size(); ++p)
                    for (std::size_t q = p + 1; q < six.size(); ++q)
                        ASSERT_FALSE(six[p].worn() && six[p] == six[q]) << "seed " << seed;
            }
        }
    }
}

// Six rotations bring everybody back, and a side-out is the only thing that rotates a team.
TEST_P(Laws, SixSideOutsBringTheOrderBack) {
    const std::vector<Entry> start = testing::opening();
    MatchState state = fold(rules(), start);
    const Six before = on_court(state.set.team.a);
    VerdictList raised;
    for (int i = 0; i < 6; ++i) {
        apply(rules(), state, {100, RallyWon{Team::B}}, raised);
        apply(rules(), state, {101, RallyWon{Team::A}}, raised);
    }
    EXPECT_EQ(on_court(state.set.team.a), before);
    EXPECT_EQ(on_court(state.set.team.b), on_court(fold(rules(), start).set.team.b));
}

// Every verdict that stands names a rally, a team and a remedy that can be carried out.
TEST_P(Laws, AnyStandingVerdictCanBeRuled) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each; ++i) {
            play.next();
            for (const Verdict& v : standing(rules(), play.state())) {
                const Judged j = judge(rules(), play.state(),
                                       {1, Ruling{Ruling::Decision::accept, v.reason, v.team}});
                bool ruled = false;
                for (const Verdict& r : j.verdicts)
                    ruled |= r.phase == Phase::accepted && r.reason == v.reason;
                ASSERT_TRUE(ruled) << describe(v.reason).word << " seed " << seed;
            }
        }
    }
}

// What the remedy announces is what accepting it brings.
TEST_P(Laws, TheAnnouncedScoreIsTheScoreAfterTheRuling) {
    for (std::uint64_t seed = 0; seed < courses; ++seed) {
        RandomPlay play{rules(), seed};
        for (int i = 0; i < facts_each; ++i) {
            play.next();
            const VerdictList list = standing(rules(), play.state());
            for (std::size_t k = 0; k < list.size(); ++k) {
                const Verdict& v = list[k];
                bool first_of_its_kind = true;
                for (std::size_t e = 0; e < k; ++e)
                    first_of_its_kind &= list[e].reason != v.reason || list[e].team != v.team;
                const bool points = v.remedy.action == Action::point_and_service;
                if (!points || !first_of_its_kind || v.set != play.state().set.number) continue;
                const Judged j = judge(rules(), play.state(),
                                       {1, Ruling{Ruling::Decision::accept, v.reason, v.team}});
                ASSERT_EQ(j.state.set.score, v.remedy.score) << "seed " << seed << " fact " << i;
                ASSERT_EQ(j.state.set.serving, v.remedy.serves)
                    << describe(v.reason).word << " seed " << seed << " fact " << i;
            }
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Profiles, Laws, ::testing::ValuesIn(profile_ids()), [](const auto& row) {
    std::string name = row.param;
    for (char& c : name)
        if (c == '-') c = '_';
    return name;
});

}  // namespace
}  // namespace courthand
