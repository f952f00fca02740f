#include "courthand/rules/judge.h"

#include "rules/context.h"

namespace courthand {

void apply(const Rules& rules, MatchState& state, const Entry& entry,
           VerdictList& raised) noexcept {
    raised.clear();
    rules::Context c{rules,
                     state,
                     entry.number,
                     raised,
                     {{state.set.team.a.slots, state.set.team.a.rotation},
                      {state.set.team.b.slots, state.set.team.b.rotation}}};
    // A record that does not open itself is opened with the profile's format.
    if (state.opened == 0 && !std::holds_alternative<MatchOpened>(entry.fact))
        rules::judge_fact(c, MatchOpened{rules.format});
    std::visit([&c](const auto& fact) { rules::judge_fact(c, fact); }, entry.fact);
    rules::settle(c);
}

Judged judge(const Rules& rules, const MatchState& state, const Entry& entry) {
    Judged judged{state, {}};
    apply(rules, judged.state, entry, judged.verdicts);
    return judged;
}

MatchState fold(const Rules& rules, std::span<const Entry> entries, const MatchState& from) {
    MatchState state = from;
    VerdictList raised;
    for (const Entry& entry : entries) apply(rules, state, entry, raised);
    return state;
}

}  // namespace courthand
