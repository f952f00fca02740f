// Faults that stand: how they are raised, armed, opened and ended.
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] Opens opens_of(const Rules& rules, Reason reason) noexcept {
    switch (describe(reason).counts) {
        case Counts::at_once:
            return Opens::at_once;
        case Counts::at_contact:
            return Opens::service_contact;
        case Counts::as_replacement:
            return rules.illegal_replacement_opens;
        case Counts::as_front_row:
            return rules.front_row_opens;
    }
    return Opens::at_once;
}

[[nodiscard]] Phase first_phase(const Context& c, Reason reason) noexcept {
    const Opens opens = opens_of(c.rules, reason);
    const Stage stage = c.set().stage;
    const bool open = stage == Stage::in_play || opens == Opens::at_once ||
                      (opens == Opens::whistle && stage == Stage::whistled);
    return open ? Phase::open : Phase::armed;
}

void report(Context& c, const Standing& fault, Phase phase) noexcept {
    Verdict v = verdict_of(c.rules, c.state, fault);
    v.phase = phase;
    v.before = by_position(c.before[fault.team], c.before[fault.team].rotation);
    c.raised.add(v);
}

void open(Context& c, Standing& fault) noexcept {
    fault.phase = Phase::open;
    report(c, fault, Phase::open);
}

/// Takes from the list what `over` says of, from number `i` on; the others close up.
template <class Over>
void drop_where(MatchState& state, Over over, std::size_t i = 0) noexcept {
    std::size_t kept = i;
    for (; i < state.standing_count; ++i) {
        if (over(state.standing[i])) continue;
        if (kept != i) state.standing[kept] = state.standing[i];
        ++kept;
    }
    for (Standing& gone : state.faults().subspan(kept)) gone = Standing{};
    state.standing_count = static_cast<std::uint8_t>(kept);
}

/// The same, and each is reported as cleared.
template <class Over>
void end_where(Context& c, Over over, std::size_t i = 0) noexcept {
    const auto ended = [&c, &over](Standing& fault) {
        const bool ends = over(fault);
        if (ends) report(c, fault, Phase::cleared);
        return ends;
    };
    drop_where(c.state, ended, i);
}

}  // namespace

void remove_standing(MatchState& state, std::size_t i) noexcept {
    const Standing* const gone = &state.standing[i];
    drop_where(
        state, [gone](const Standing& fault) { return &fault == gone; }, i);
}

Verdict verdict_of(const Rules& rules, const MatchState& state, const Standing& fault) noexcept {
    Verdict v;
    v.reason = fault.reason;
    v.team = fault.team;
    v.phase = fault.phase;
    v.players = fault.players;
    v.entry = fault.entry;
    v.rally = fault.rally;
    v.set = fault.set;
    const TeamSet& side = state.set.team[fault.team];
    v.before = by_position(fault.undo.floor, side.rotation);
    v.after = on_court(side);
    v.remedy = remedy_of(rules, state, fault);
    return v;
}

bool stands(const MatchState& state, Reason reason, Team team) noexcept {
    return any_fault(state, [reason, team](const Standing& fault) {
        return fault.reason == reason && fault.team == team;
    });
}

void raise(Context& c, const Fault& fault) noexcept {
    Standing s;
    s.entry = c.entry;
    s.rally = static_cast<std::uint16_t>(c.set().rallies + 1);
    s.reason = fault.reason;
    s.team = fault.team;
    s.phase = first_phase(c, fault.reason);
    s.set = c.set().number;
    s.players = fault.players;
    s.slot = fault.slot;
    s.repeat = fault.repeat;
    s.completed = c.set().completed;
    s.undo = undo_of(c.state, fault);
    // A request made during a rally was not there when the service was hit.
    const bool played =
        c.set().stage == Stage::in_play && describe(fault.reason).life != Life::request;
    s.in_rally = played ? 1 : 0;
    // A full list loses no verdict: it is reported, only its later life is not followed.
    if (c.state.standing_count < most_standing) c.state.standing[c.state.standing_count++] = s;
    report(c, s, s.phase);
}

void raise_once(Context& c, const Fault& fault) noexcept {
    if (!stands(c.state, fault.reason, fault.team)) raise(c, fault);
}

void open_at_whistle(Context& c) noexcept {
    for (Standing& fault : c.state.faults())
        if (fault.phase == Phase::armed && opens_of(c.rules, fault.reason) == Opens::whistle)
            open(c, fault);
}

void open_at_contact(Context& c) noexcept {
    for (Standing& fault : c.state.faults())
        if (fault.phase == Phase::armed) open(c, fault);
}

void settle(Context& c) noexcept {
    end_where(c, [&c](const Standing& fault) {
        if (reaches_back(fault) && finished_sets_tainted(c.state, fault.team)) return false;
        if (played_with(fault) && costs_the_rally(fault)) return false;
        return !still_so(c.state, fault);
    });
}

namespace {

/// The rallies played with a fault, with the one that a ruling has just ended.
[[nodiscard]] RallyBits rallies_of(const SetState& set, const Standing& fault) noexcept {
    RallyBits rallies = fault.played;
    if (fault.in_rally != 0) rallies.add(set.rallies);
    return rallies;
}

/// A pair of a request that was refused as a whole, where it has been put back.
[[nodiscard]] bool refused_with(const Context& c, const Standing& pair,
                                const Standing& request) noexcept {
    return describe(request.reason).life == Life::request &&
           (request.undo.changes.slots & bit_of(pair.slot)) != 0 &&
           c.side(pair.team).slots[pair.slot - 1U].on_court != pair.players[0];
}

}  // namespace

void end_covered(Context& c, const Standing& accepted, const Remedy& remedy, bool rally_ended,
                 bool point_given) noexcept {
    const bool points = remedy.action == Action::point_and_service;
    RallyBits taken = rallies_of(c.set(), accepted);
    if (rally_ended) taken.add(c.set().rallies);
    end_where(c, [&](Standing& fault) {
        if (fault.team != accepted.team || fault.set != accepted.set) return false;
        const bool same_entry = fault.entry == accepted.entry;
        // How the service was hit is no act that could be undone.
        const bool same_act = same_entry && remedy.restore && fault.slot != 0 &&
                              describe(fault.reason).life != Life::service &&
                              (fault.slot == accepted.slot || refused_with(c, fault, accepted));
        if (same_act || (same_entry && remedy.action == Action::refuse)) return true;
        if (!points || !costs_the_rally(fault) || !played_with(fault)) return false;
        const RallyBits own = rallies_of(c.set(), fault);
        // A fault whose point was the rally itself covers none that gives a point besides.
        if (!own.without(taken).any()) return point_given || opponent_has_its_point(c.rules, fault);
        // The opponent was given its point of the rally that both are about.
        if (point_given && own.last() == taken.last()) {
            fault.played = own;
            fault.in_rally = 0;
            fault.opponent_won_last = 1;
            fault.point_given = 1;
            fault.won_receiving = 0;
        }
        return false;
    });
}

void end_old_sets(Context& c) noexcept {
    end_where(c, [](const Standing& fault) { return !reaches_back(fault); });
    for (Standing& fault : c.state.faults()) {
        // What it cost in the finished set is kept with that set's result.
        Standing carried;
        carried.entry = fault.entry;
        carried.reason = fault.reason;
        carried.team = fault.team;
        carried.phase = fault.phase;
        carried.players = fault.players;
        carried.set = c.set().number;
        carried.rally = 1;
        fault = carried;
    }
}

void end_all(Context& c) noexcept {
    end_where(c, [](const Standing&) { return true; });
}

void end_armed(Context& c) noexcept {
    end_where(c, [](const Standing& fault) { return fault.phase == Phase::armed; });
}

void end_notices(Context& c) noexcept {
    // A repeated late replacement brings a sanction and waits for the referee.
    drop_where(c.state, [](const Standing& fault) {
        return describe(fault.reason).life == Life::notice && fault.repeat == 0;
    });
}

void end_calls_on(Context& c, Team team) noexcept {
    end_where(c, [team](const Standing& fault) {
        return describe(fault.reason).lasts == Lasts::this_rally && fault.team == team &&
               fault.in_rally != 0;
    });
}

void end_sheet_faults(Context& c, Team team) noexcept {
    end_where(c, [team](const Standing& fault) {
        const Life life = describe(fault.reason).life;
        // What was done on court names its place.
        const bool of_a_number = fault.slot == 0 && fault.players[0].worn() &&
                                 (life == Life::condition || life == Life::act);
        return fault.team == team && fault.phase == Phase::armed &&
               (life == Life::sheet || of_a_number);
    });
}

void end_said_anew(Context& c, Team team, Reason reason) noexcept {
    end_where(c, [team, reason](const Standing& fault) {
        return fault.team == team && fault.reason == reason;
    });
}

void end_undone(Context& c, Team team, std::uint8_t slot, std::size_t first) noexcept {
    const auto undone = [team, slot](const Standing& fault) {
        return fault.team == team && fault.slot == slot && fault.phase == Phase::armed;
    };
    end_where(c, undone, first);
}

}  // namespace courthand::rules

namespace courthand {

VerdictList standing(const Rules& rules, const MatchState& state) noexcept {
    VerdictList list;
    for (const Standing& fault : state.faults()) list.add(rules::verdict_of(rules, state, fault));
    return list;
}

}  // namespace courthand
