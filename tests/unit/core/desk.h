// A match in its first set to which a test says facts one by one.
#pragma once

#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "random_play.h"
#include "tests/testkit/jersey.h"

namespace courthand::testing {

/// A request with one pair, in for out.
inline Substitution one_pair(Team team, Jersey in, Jersey out) {
    Substitution request{team, 1, {}};
    request.pairs[0] = {in, out};
    return request;
}

/// The opening of `random_play.h`: A 1 to 6 with 11 to 14 on the bench and the liberos 21 and 22,
/// B 31 to 36; A serves.
class Desk : public ::testing::Test {
  protected:
    Desk() : state{fold(rules, opening())} {}

    /// Begins again under other rules.
    void play_by(const Rules& other) {
        rules = other;
        state = fold(rules, opening());
    }
    const VerdictList& say(const Fact& fact) {
        apply(rules, state, {++number, fact}, raised);
        return raised;
    }
    [[nodiscard]] bool raises(const Fact& fact, Reason reason) {
        for (const Verdict& v : say(fact))
            if (v.reason == reason) return true;
        return false;
    }
    /// The remedy of a verdict that stands, or none.
    [[nodiscard]] Action remedy_for(Reason reason) const {
        for (const Verdict& v : standing(rules, state))
            if (v.reason == reason) return v.remedy.action;
        return Action::none;
    }
    [[nodiscard]] bool stands(Reason reason) const {
        for (const Verdict& v : standing(rules, state))
            if (v.reason == reason) return true;
        return false;
    }
    void accept(Reason reason, Team team) { say(Ruling{Ruling::Decision::accept, reason, team}); }
    [[nodiscard]] Jersey in_slot(Slot slot) const {
        return state.set.team.a.slots[index(slot)].on_court;
    }
    /// Set 2 with the line-ups of the opening, after A has won set 1.
    void second_set() {
        for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
        say(SetStarted{2});
        for (const std::size_t i : {4U, 5U, 6U, 7U}) say(opening()[i].fact);
    }

    Rules rules = find_profile("international-2025")->rules;
    MatchState state;
    VerdictList raised;
    EntryNumber number = 100;
};

}  // namespace courthand::testing
