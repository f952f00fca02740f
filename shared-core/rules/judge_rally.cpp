// Service, rallies, points, and the end of sets and of the match.
#include <algorithm>
#include <optional>

#include "courthand/match/set_end.h"
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] bool set_won(const MatchFormat& format, const SetState& set, Team team) noexcept {
    return wins_set(format, set.number, points(set.score, team), points(set.score, opponent(team)));
}

/// The server of a contact: the one named, or the one the record expects.
[[nodiscard]] Server server_of(const SetState& set, const Serve& serve) noexcept {
    if (serve.server.worn()) return {serve.team, serve.server};
    return {set.serving, expected_server(set.team[set.serving])};
}

/// Two wrong servers of a team are two faults; one who goes on serving is one.
void raise_once_for(Context& c, const Fault& fault) noexcept {
    const auto same = [&fault](const Standing& s) {
        return s.reason == fault.reason && s.team == fault.team && s.players[0] == fault.players[0];
    };
    if (!any_fault(c.state, same)) raise(c, fault);
}

void judge_libero_service(Context& c, Server server) noexcept {
    TeamSet& side = c.side(server.team);
    const std::uint8_t slot = slot_of(side, server.jersey);
    if (slot == 0) return;
    const SlotRecord& place = side.slots[slot - 1U];
    if (!place.replaced.worn() && !acts_as_libero(side, server.jersey)) return;
    const Named libero{server.jersey, {}};
    if (libero_may_serve_from(c.rules, side, slot))
        side.serving_slot = slot;
    else if (c.rules.libero_serving_positions == 0)
        raise_once(c, {Reason::libero_may_not_serve, server.team, libero, slot});
    else
        raise_once(c, {Reason::libero_second_serving_position, server.team, libero, slot});
}

void judge_order(Context& c, Server server) noexcept {
    const SetState& set = c.set();
    const Jersey expected = expected_server(set.team[set.serving]);
    if (server.team == set.serving && server.jersey == expected) return;
    raise_once_for(c, {Reason::wrong_server,
                       server.team,
                       {server.jersey, expected},
                       slot_of(c.side(server.team), server.jersey)});
}

/// The team has served this rally as it may not.
[[nodiscard]] bool served_at_fault(const MatchState& state, Team team) noexcept {
    return any_fault(state, [team](const Standing& fault) {
        return fault.team == team && fault.in_rally != 0 &&
               describe(fault.reason).group == Group::services;
    });
}

/// The same player was called in this rally; a call of an earlier one is another fault.
[[nodiscard]] bool called_already(const MatchState& state, const Fault& call) noexcept {
    return any_fault(state, [&call](const Standing& s) {
        return s.reason == call.reason && s.team == call.team && s.players[0] == call.players[0] &&
               s.in_rally != 0;
    });
}

void begin_rally_of_faults(Context& c, Server server) noexcept {
    const auto rally = static_cast<std::uint16_t>(c.set().rallies + 1);
    for (Standing& fault : c.state.faults()) {
        if (server.team != fault.team) fault.term_from = rally;
        fault.in_rally = played_now(c.state, fault, server) ? 1 : 0;
        fault.won_receiving = 0;
    }
}

/// Requests are open again.
void end_requests(SetState& set) noexcept {
    for (const Team team : {Team::A, Team::B}) {
        set.team[team].request_made = 0;
        set.team[team].rejected = 0;
    }
}

/// What belongs to an interruption ends with the next service; a rejection bars the team until a
/// rally has been completed.
void end_interruption(SetState& set) noexcept {
    for (const Team team : {Team::A, Team::B}) {
        TeamSet& side = set.team[team];
        side.unable_exception = 0;
        side.injured = Jersey::none();
        side.request_made = 0;
    }
    set.replaying = 0;
}

void give_pending_penalties(Context& c) noexcept {
    for (const Team team : {c.set().serving, opponent(c.set().serving)}) {
        std::uint8_t& pending = c.side(team).pending_penalties;
        while (pending > 0 && set_running(c.set().stage)) {
            --pending;
            give_penalty(c, team);
        }
        // What the set had no room for opens the next one.
        if (c.set().stage == Stage::set_over)
            c.record(team).pending_penalties =
                static_cast<std::uint8_t>(c.record(team).pending_penalties + pending);
        pending = 0;
    }
}

}  // namespace

void end_rally_of_faults(Context& c, Team winner, Point point) noexcept {
    const bool ruled = point == Point::of_ruling;
    for (Standing& fault : c.state.faults()) {
        if (fault.in_rally == 0) continue;
        const bool won = winner == fault.team;
        fault.in_rally = 0;
        fault.played.add(c.set().rallies);
        fault.opponent_won_last = won ? 0 : 1;
        fault.point_given = ruled && !won ? 1 : 0;
        if (won) fault.won_receiving = ruled || c.set().serving == fault.team ? 0 : 1;
    }
}

void complete_rally(SetState& set) noexcept {
    ++set.completed;
    end_requests(set);
    for (const Team team : {Team::A, Team::B}) set.team[team].unable_exception = 0;
}

bool set_running(Stage stage) noexcept {
    return stage == Stage::before_set || stage == Stage::dead_ball || stage == Stage::whistled ||
           stage == Stage::in_play;
}

bool switch_due(const MatchState& state) noexcept {
    const SetState& set = state.set;
    if (!set_running(set.stage) || set.switched != 0) return false;
    if (!state.format.deciding(set.number)) return false;
    const std::uint8_t leader = set.score.a > set.score.b ? set.score.a : set.score.b;
    return leader >= state.format.switch_at;
}

bool playable(const SetState& set) noexcept {
    return set_running(set.stage) && set.interrupted == 0;
}

void award_point(Context& c, Team team) noexcept {
    SetState& set = c.set();
    count_up(points(set.score, team));
    if (set.serving != team) {
        c.side(team).rotation.forward();
        set.serving = team;
    }
    finish_set_if_won(c);
}

void give_penalty(Context& c, Team at_fault) noexcept {
    SetState& set = c.set();
    if (!set_running(set.stage)) {
        if (set.stage != Stage::match_over) ++c.record(at_fault).pending_penalties;
        return;
    }
    if (set.stage == Stage::in_play) {
        ++c.side(at_fault).pending_penalties;
        return;
    }
    ++set.completed;
    // A penalty is a completed rally: it opens a new interruption for both teams.
    end_interruption(set);
    end_requests(set);
    set.penalised = 1;
    if (set.stage == Stage::whistled) set.stage = Stage::dead_ball;
    award_point(c, opponent(at_fault));
}

void finish_set_if_won(Context& c) noexcept {
    for (const Team team : {Team::A, Team::B})
        if (set_won(c.state.format, c.set(), team)) {
            finish_set(c, team);
            return;
        }
}

namespace {

/// Who has won by the sets as they stand, if anybody has.
[[nodiscard]] std::optional<Team> match_winner(const MatchState& state) noexcept {
    const MatchFormat& f = state.format;
    const std::uint8_t a = state.team[Team::A].sets_won;
    const std::uint8_t b = state.team[Team::B].sets_won;
    if (f.all_sets_played != 0) {
        if (state.set.number < f.sets || set_running(state.set.stage)) return std::nullopt;
        return a >= b ? Team::A : Team::B;
    }
    if (a >= f.sets_to_win()) return Team::A;
    if (b >= f.sets_to_win()) return Team::B;
    return std::nullopt;
}

/// Where sanctions count for one set they are forgotten when it ends; what is given after that
/// counts for the next one. Bars outlast the set.
void forget_sanctions(Context& c) noexcept {
    for (const Team team : {Team::A, Team::B}) {
        TeamRecord& record = c.record(team);
        if (c.rules.delay_scope == Scope::set) record.delays = 0;
        if (c.rules.misconduct_scope != Scope::set) continue;
        record.warned = 0;
        for (PlayerRecord& player : record.players) player.misconduct = 0;
    }
}

}  // namespace

void finish_set(Context& c, Team winner) noexcept {
    SetState& set = c.set();
    end_armed(c);
    forget_sanctions(c);
    set.stage = Stage::set_over;
    ++c.record(winner).sets_won;
    c.state.results[set.number - 1U] =
        SetResult{set.score, 1, winner, {set.team.a.clean, set.team.b.clean}};
    if (const auto of_match = match_winner(c.state)) finish_match(c, *of_match);
}

void reopen_set(Context& c) noexcept {
    SetState& set = c.set();
    SetResult& result = c.state.results[set.number - 1U];
    --c.record(result.winner).sets_won;
    result = SetResult{};
    c.state.winner = Team{};
    set.stage = Stage::dead_ball;
}

bool finished_sets_tainted(const MatchState& state, Team team) noexcept {
    for (const SetResult& result : state.results)
        if (result.played != 0 && result.clean[team] != 0) return true;
    return false;
}

Score clean_score(const Rules& rules, const MatchState& state, Team team,
                  std::uint8_t number) noexcept {
    const SetResult& result = state.results[number - 1U];
    const bool keeps = rules.unregistered_finished_set == UnregisteredSet::keeps_earlier_points;
    Score score = result.score;
    points(score, team) =
        keeps ? static_cast<std::uint8_t>(result.clean[team] - 1) : state.format.start_score;
    if (result.winner != team) return score;
    std::uint8_t& won = points(score, opponent(team));
    won = std::max(won, state.format.points_of(number));
    return score;
}

namespace {

/// One finished set without the points that `team` won since it was tainted.
void void_set(Context& c, Team team, std::uint8_t number) noexcept {
    SetResult& result = c.state.results[number - 1U];
    const Team other = opponent(team);
    result.score = clean_score(c.rules, c.state, team, number);
    if (number == c.set().number) c.set().score = result.score;
    result.clean[team] = 0;
    if (result.winner == other) return;
    result.winner = other;
    --c.record(team).sets_won;
    ++c.record(other).sets_won;
}

}  // namespace

void void_finished_sets(Context& c, Team team) noexcept {
    MatchState& state = c.state;
    for (std::uint8_t n = 1; n <= MatchFormat::most_sets; ++n) {
        const SetResult& result = state.results[n - 1U];
        if (result.played != 0 && result.clean[team] != 0) void_set(c, team, n);
    }
    if (const auto winner = match_winner(state)) {
        finish_match(c, *winner);
    } else if (state.set.stage == Stage::match_over) {
        state.set.stage = Stage::set_over;
        state.winner = Team{};
    }
}

void finish_match(Context& c, Team winner) noexcept {
    c.set().stage = Stage::match_over;
    c.state.winner = winner;
}

void contact(Context& c, const Serve& serve) noexcept {
    SetState& set = c.set();
    const Server server = server_of(set, serve);
    set.stage = Stage::in_play;
    begin_rally_of_faults(c, server);
    open_at_contact(c);
    look_at_conditions(c);
    judge_order(c, server);
    judge_libero_service(c, server);
    end_interruption(set);
    set.penalised = 0;
}

void judge_fact(Context& c, const Whistle&) noexcept {
    SetState& set = c.set();
    if (!playable(set) || set.stage == Stage::in_play || set.stage == Stage::whistled) {
        out_of_sequence(c, set.serving);
        return;
    }
    set.stage = Stage::whistled;
    look_at_conditions(c);
    open_at_whistle(c);
}

void judge_fact(Context& c, const Serve& fact) noexcept {
    if (!playable(c.set()) || c.set().stage == Stage::in_play) {
        out_of_sequence(c, c.set().serving);
        return;
    }
    contact(c, fact);
}

void judge_fact(Context& c, const RallyWon& fact) noexcept {
    SetState& set = c.set();
    if (!playable(set)) {
        out_of_sequence(c, fact.team);
        return;
    }
    if (set.stage != Stage::in_play) contact(c, Serve{});
    ++set.rallies;
    complete_rally(set);
    set.stage = Stage::dead_ball;
    if (fact.team == Team::A) set.won_by_a.add(set.rallies);
    end_calls_on(c, opponent(fact.team));
    end_rally_of_faults(c, fact.team, Point::of_rally);
    end_notices(c);
    award_point(c, fact.team);
    give_pending_penalties(c);
}

void judge_fact(Context& c, const PositionalFault& fact) noexcept {
    SetState& set = c.set();
    if (!playable(set)) {
        out_of_sequence(c, fact.team);
        return;
    }
    if (set.stage != Stage::in_play) contact(c, Serve{});
    const TeamSet& side = c.side(fact.team);
    Fault fault{Reason::positional_fault, fact.team, {fact.player, {}}, slot_of(side, fact.player)};
    if (fact.team == set.serving && c.rules.serving_team_in_order == 0)
        fault.reason = Reason::positional_fault_of_servers;
    // A fault of the server at the same hit counts before the receivers' positions.
    else if (served_at_fault(c.state, opponent(fact.team)))
        return;
    if (!called_already(c.state, fault)) raise(c, fault);
}

void stop_rally(Context& c) noexcept {
    SetState& set = c.set();
    set.stage = Stage::dead_ball;
    set.replaying = 1;
    if (c.rules.replay_completes_rally != 0) ++set.completed;
    if (c.rules.requests_after_replay != 0) end_requests(set);
    for (const Team team : {Team::A, Team::B}) end_calls_on(c, team);
    for (Standing& fault : c.state.faults()) fault.in_rally = 0;
    give_pending_penalties(c);
}

void judge_fact(Context& c, const Replay&) noexcept {
    if (c.set().stage == Stage::in_play)
        stop_rally(c);
    else
        out_of_sequence(c, c.set().serving);
}

}  // namespace courthand::rules
