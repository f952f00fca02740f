// The course of the match: opening, rosters, toss, sets, court switch, forfeits, corrections.
#include <algorithm>

#include "courthand/match/set_end.h"
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] bool set_may_start(const MatchState& state, std::uint8_t number) noexcept {
    const Stage stage = state.set.stage;
    return (stage == Stage::before_match || stage == Stage::set_over) &&
           number == state.set.number + 1;
}

/// Who serves first: by toss in the first and the deciding set, in turn otherwise.
[[nodiscard]] Team first_server(const MatchState& state, std::uint8_t number) noexcept {
    const bool by_toss = number == 1 || (state.format.deciding(number) && state.tossed >= 2);
    return by_toss ? state.toss_serves : opponent(state.set.first_server);
}

[[nodiscard]] Team left_side(const MatchState& state, std::uint8_t number) noexcept {
    const bool by_toss = number == 1 || (state.format.deciding(number) && state.tossed >= 2);
    return by_toss ? state.toss_left : opponent(state.set.left);
}

void take_toss(SetState& set, const Toss& toss) noexcept {
    set.first_server = toss.serves;
    set.serving = toss.serves;
    set.left = toss.left;
}

/// Liberos who were named for one set only go back to being ordinary players.
void end_set_designation(Context& c, Team team) noexcept {
    TeamRecord& record = c.record(team);
    const bool for_set = c.rules.designation == DesignationScope::set ||
                         (c.rules.designation == DesignationScope::match_or_set &&
                          record.choice != DesignationChoice::two_for_match);
    if (!for_set) return;
    for (std::size_t i = 0; i < record.count; ++i) {
        PlayerRecord& player = record.players[i];
        const bool stays_out =
            player.libero == LiberoRole::replaced && c.rules.replaced_libero_out == Scope::match;
        const bool stays_in =
            player.redesignated != 0 && c.rules.replaced_libero_out == Scope::match;
        if (stays_out || stays_in) continue;
        player.libero = LiberoRole::none;
        player.redesignated = 0;
        player.libero_unable = 0;
    }
}

void give_carried_penalties(Context& c) noexcept {
    for (const Team team : {c.set().serving, opponent(c.set().serving)})
        while (c.record(team).pending_penalties > 0 && set_running(c.set().stage)) {
            --c.record(team).pending_penalties;
            give_penalty(c, team);
        }
}

/// The line-up sheet of a team as at the start of the set, with the sanctions it has had since.
void start_anew(Context& c, Team team, const TeamSet& old) noexcept {
    TeamSet& side = c.side(team);
    Six starters{};
    for (std::size_t s = 0; s < players_on_court; ++s) starters[s] = old.slots[s].starter;
    place_starters(c.record(team), side, starters);
    side.boxes = old.boxes;
    side.liberos = old.liberos;
    side.captain = old.captain;
    side.lineup_in = old.lineup_in;
    update_captain(c, team);
}

/// The set is cancelled and played again with the same members and starting line-ups.
void play_set_anew(Context& c) noexcept {
    const SetState old = c.set();
    end_old_sets(c);
    SetState& set = c.set();
    set = SetState{};
    set.number = old.number;
    set.stage = Stage::before_set;
    set.score = {c.state.format.start_score, c.state.format.start_score};
    set.serving = set.first_server = old.first_server;
    set.left = old.switched != 0 ? opponent(old.left) : old.left;
    for (const Team team : {Team::A, Team::B}) start_anew(c, team, old.team[team]);
}

/// Nothing of the match stands but its team lists.
void play_match_anew(Context& c) noexcept {
    MatchState& state = c.state;
    end_all(c);
    for (const Team team : {Team::A, Team::B}) {
        TeamRecord list;
        list.captain = state.team[team].captain;
        for (std::size_t i = 0; i < state.team[team].count; ++i)
            list.enlist(state.team[team].players[i].jersey);
        state.team[team] = list;
    }
    state.results = {};
    state.tossed = 0;
    state.set = SetState{};
}

/// The incomplete team keeps its points; its opponent gets what it still needs.
void concede_set(Context& c, Team loser) noexcept {
    SetState& set = c.set();
    const Team winner = opponent(loser);
    const std::uint8_t kept = points(set.score, loser);
    const unsigned needed = c.state.format.points_of(set.number);
    const unsigned ahead = kept + static_cast<unsigned>(c.state.format.lead);
    const unsigned cap = c.state.format.cap_of(set.number);
    unsigned won = ahead > needed ? ahead : needed;
    if (cap != 0 && won > cap) won = cap;
    points(set.score, winner) = static_cast<std::uint8_t>(won);
    finish_set(c, winner);
}

void start_next(Context& c) noexcept {
    const Team served = c.set().first_server;
    const Team left = c.set().left;
    const auto number = static_cast<std::uint8_t>(c.set().number + 1);
    c.set() = SetState{};
    c.set().number = number;
    c.set().stage = Stage::before_set;
    c.set().first_server = opponent(served);
    c.set().serving = opponent(served);
    c.set().left = opponent(left);
    c.set().score = {c.state.format.start_score, c.state.format.start_score};
}

void concede_match(Context& c, Team loser) noexcept {
    c.state.forfeited = 1;
    while (c.set().stage != Stage::match_over) {
        if (!set_running(c.set().stage)) start_next(c);
        concede_set(c, loser);
    }
}

}  // namespace

void out_of_sequence(Context& c, Team team) noexcept {
    raise(c, {Reason::out_of_sequence, team});
}

void judge_fact(Context& c, const MatchOpened& fact) noexcept {
    if (c.state.opened != 0) {
        out_of_sequence(c, Team::A);
        return;
    }
    c.state.format = fact.format;
    // Results are kept for so many sets and no more.
    c.state.format.sets = std::min(fact.format.sets, MatchFormat::most_sets);
    c.state.opened = 1;
}

void judge_fact(Context& c, const Roster& fact) noexcept {
    TeamRecord& record = c.record(fact.team);
    if (c.set().number > 0) {
        out_of_sequence(c, fact.team);
        return;
    }
    end_said_anew(c, fact.team, Reason::roster_too_long);
    record = TeamRecord{};
    for (std::size_t i = 0; i < fact.count && i < most_players; ++i) record.enlist(fact.players[i]);
    record.captain = fact.captain;
    if (fact.count > c.rules.most_listed) raise(c, {Reason::roster_too_long, fact.team});
}

void judge_fact(Context& c, const Toss& fact) noexcept {
    SetState& set = c.set();
    const bool before_first = set.number == 0 || (set.number == 1 && set.rallies == 0);
    const bool decider_next = c.state.format.deciding(static_cast<std::uint8_t>(set.number + 1)) &&
                              set.stage == Stage::set_over;
    const bool decider_now = c.state.format.deciding(set.number) && set.rallies == 0 &&
                             set.completed == 0 && set_running(set.stage);
    if (!before_first && !decider_next && !decider_now) {
        out_of_sequence(c, fact.serves);
        return;
    }
    c.state.toss_serves = fact.serves;
    c.state.toss_left = fact.left;
    c.state.tossed = before_first && !decider_now ? 1 : 2;
    if (set_running(set.stage)) take_toss(set, fact);
}

void judge_fact(Context& c, const SetStarted& fact) noexcept {
    if (!set_may_start(c.state, fact.number) || c.set().interrupted != 0) {
        out_of_sequence(c, Team::A);
        return;
    }
    const Team server = first_server(c.state, fact.number);
    const Team left = left_side(c.state, fact.number);
    c.set() = SetState{};
    c.set().number = fact.number;
    c.set().stage = Stage::before_set;
    c.set().first_server = server;
    c.set().serving = server;
    c.set().left = left;
    c.set().score = {c.state.format.start_score, c.state.format.start_score};
    for (const Team team : {Team::A, Team::B}) {
        end_set_designation(c, team);
        c.side(team).liberos = c.record(team).designated;
    }
    end_old_sets(c);
    give_carried_penalties(c);
}

void judge_fact(Context& c, const Interrupted&) noexcept {
    SetState& set = c.set();
    if (set.interrupted != 0 || set.number == 0 || set.stage == Stage::match_over) {
        out_of_sequence(c, set.serving);
        return;
    }
    if (set.stage == Stage::in_play) stop_rally(c);
    if (set.stage == Stage::whistled) set.stage = Stage::dead_ball;
    set.interrupted = 1;
}

void judge_fact(Context& c, const Resumed& fact) noexcept {
    SetState& set = c.set();
    if (set.interrupted == 0) {
        out_of_sequence(c, set.serving);
        return;
    }
    set.interrupted = 0;
    switch (fact.how) {
        case Resumed::How::same_court:
            return;
        case Resumed::How::other_court:
            if (set_running(set.stage)) play_set_anew(c);
            return;
        case Resumed::How::over_four_hours:
            play_match_anew(c);
            return;
    }
}

void judge_fact(Context& c, const CourtSwitch&) noexcept {
    SetState& set = c.set();
    if (!switch_due(c.state)) {
        raise(c, {Reason::switch_not_due, set.serving});
        return;
    }
    set.switched = 1;
    set.left = opponent(set.left);
    if (c.rules.recheck_after_switch != 0) set.team.a.checked = set.team.b.checked = 0;
}

void judge_fact(Context& c, const Interval&) noexcept {
    if (c.set().stage != Stage::set_over) out_of_sequence(c, c.set().serving);
}

void judge_fact(Context& c, const Incomplete& fact) noexcept {
    if (fact.scope == Incomplete::Scope::match) {
        concede_match(c, fact.team);
    } else if (set_running(c.set().stage)) {
        concede_set(c, fact.team);
    } else {
        out_of_sequence(c, fact.team);
    }
}

void judge_fact(Context& c, const Default& fact) noexcept {
    MatchState& state = c.state;
    if (state.set.stage == Stage::match_over) {
        out_of_sequence(c, fact.team);
        return;
    }
    // The whole match is lost without a point: nothing that was played before counts.
    state.results = {};
    state.team.a.sets_won = state.team.b.sets_won = 0;
    state.set = SetState{};
    concede_match(c, fact.team);
}

void judge_fact(Context&, const Protest&) noexcept {}

void judge_fact(Context& c, const ScoreCorrection& fact) noexcept {
    SetState& set = c.set();
    if (!set_running(set.stage)) {
        out_of_sequence(c, set.serving);
        return;
    }
    const auto [low, high] = std::minmax({fact.score.a, fact.score.b});
    if (!set_can_come_to(c.state.format, set.number, high, low))
        raise(c, {Reason::score_impossible, set.serving});
    set.score = fact.score;
    finish_set_if_won(c);
}

void judge_fact(Context&, const Note&) noexcept {}

// What signatures stand for hangs on the order of writing, which no state knows (signatures.h).
void judge_fact(Context&, const Signature&) noexcept {}

}  // namespace courthand::rules
