// What a team could do now. A candidate is legal exactly when the judge raises nothing for it, so
// there is one set of rules and not two.
#include <algorithm>

#include "courthand/rules/judge.h"
#include "rules/context.h"

namespace courthand {
namespace {

VerdictList raised_by(const Rules& rules, MatchState state, const Fact& fact) noexcept {
    VerdictList raised;
    apply(rules, state, Entry{0, fact}, raised);
    return raised;
}

bool objects(const Verdict& verdict) noexcept {
    return verdict.phase == Phase::armed || verdict.phase == Phase::open;
}

struct Asker {
    const Rules& rules;
    const MatchState& state;

    [[nodiscard]] Option ask(const Fact& fact) const noexcept {
        return option_for(rules, state, fact);
    }
};

void add_replacements(const Asker& ask, Team team, std::vector<Option>& out) {
    const TeamSet& side = ask.state.set.team[team];
    for (const SlotRecord& slot : side.slots) {
        if (slot.replaced.worn())
            out.push_back(ask.ask(LiberoReplacement{team, slot.replaced, slot.on_court}));
        // A libero among the six may be the one who has been replaced: he is offered once.
        for (const Jersey libero : side.liberos)
            if (libero.worn() && slot.on_court.worn() && libero != slot.on_court &&
                libero != slot.replaced)
                out.push_back(ask.ask(LiberoReplacement{team, libero, slot.on_court}));
    }
}

/// An armed act can be taken back by the player who was there before, whatever he may be by now.
void add_takings_back(const Asker& ask, Team team, std::vector<Option>& out) {
    const auto offered = [&](const Fact& fact) {
        return std::any_of(out.begin(), out.end(), [&](const Option& o) { return o.fact == fact; });
    };
    for (const Standing& fault : ask.state.faults()) {
        if (fault.team != team || fault.slot == 0 || fault.phase != Phase::armed) continue;
        const Jersey back = fault.undo.floor.slots[fault.slot - 1U].on_court;
        const LiberoReplacement act{team, back, fault.players[0]};
        if (back.worn() && back != fault.players[0] && !offered(act)) out.push_back(ask.ask(act));
    }
}

void add_substitutions(const Asker& ask, Team team, std::vector<Option>& out) {
    const TeamSet& side = ask.state.set.team[team];
    const TeamRecord& record = ask.state.team[team];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey in = record.players[i].jersey;
        if (rules::on_floor(side, in)) continue;
        for (const SlotRecord& slot : side.slots) {
            if (!slot.on_court.worn()) continue;
            Substitution request{team, 1, {}};
            request.pairs[0] = {in, slot.on_court};
            out.push_back(ask.ask(request));
        }
    }
}

void add_captains(const Asker& ask, Team team, std::vector<Option>& out) {
    for (const SlotRecord& slot : ask.state.set.team[team].slots)
        if (slot.on_court.worn()) out.push_back(ask.ask(GameCaptain{team, slot.on_court}));
}

void add_redesignations(const Asker& ask, Team team, std::vector<Option>& out) {
    const TeamRecord& record = ask.state.team[team];
    for (const Jersey libero : record.designated) {
        if (!libero.worn()) continue;
        for (std::size_t i = 0; i < record.count; ++i)
            if (record.players[i].jersey != libero)
                out.push_back(ask.ask(Redesignation{team, libero, record.players[i].jersey}));
    }
}

}  // namespace

VerdictList objections_to(const Rules& rules, const MatchState& state, const Fact& fact) noexcept {
    VerdictList objections;
    for (const Verdict& verdict : raised_by(rules, state, fact))
        if (objects(verdict)) objections.add(verdict);
    return objections;
}

Option option_for(const Rules& rules, const MatchState& state, const Fact& fact) noexcept {
    for (const Verdict& verdict : raised_by(rules, state, fact))
        if (objects(verdict)) return {fact, false, verdict.reason};
    return {fact, true, {}};
}

LegalActions legal_actions(const Rules& rules, const MatchState& state, Team team) {
    const Asker ask{rules, state};
    LegalActions actions;
    add_replacements(ask, team, actions.replacements);
    add_takings_back(ask, team, actions.replacements);
    add_substitutions(ask, team, actions.substitutions);
    add_captains(ask, team, actions.captains);
    add_redesignations(ask, team, actions.redesignations);
    return actions;
}

}  // namespace courthand
