#include "courthand/sim/match_player.h"

#include <algorithm>
#include <vector>

namespace courthand::sim {
namespace {

/// Acts in one dead ball after which the player goes on to serve, whatever comes.
constexpr std::uint32_t most_acts_between_rallies = 6;

bool barred(const MatchState& state, const PlayerRecord& player) {
    if (player.bar == Bar::none) return false;
    return player.bar != Bar::expelled || player.barred_set == state.set.number;
}

const Option* pick(const std::vector<Option>& options, bool legal, Dice& dice) {
    std::vector<const Option*> fitting;
    for (const Option& option : options)
        if (option.legal == legal) fitting.push_back(&option);
    return fitting.empty() ? nullptr : fitting[dice.below(fitting.size())];
}

template <class T, class Wanted>
const Option* find_legal(const std::vector<Option>& options, Wanted wanted) {
    for (const Option& option : options)
        if (option.legal)
            if (const auto* fact = std::get_if<T>(&option.fact))
                if (wanted(*fact)) return &option;
    return nullptr;
}

bool libero_missing(const TeamRecord& team) {
    for (std::size_t i = 0; i < team.count; ++i)
        if (team.players[i].libero == LiberoRole::designated && team.players[i].libero_unable != 0)
            return true;
    return false;
}

std::vector<Jersey> bench(const MatchState& state, Team team) {
    const Six six = on_court(state.set.team[team]);
    std::vector<Jersey> out;
    for (std::size_t i = 0; i < state.team[team].count; ++i) {
        const PlayerRecord& player = state.team[team].players[i];
        const bool plays = std::find(six.begin(), six.end(), player.jersey) != six.end();
        if (plays || barred(state, player) || player.libero != LiberoRole::none) continue;
        out.push_back(player.jersey);
    }
    return out;
}

}  // namespace

Roster invented_roster(Team team, Dice& dice) {
    Roster roster;
    roster.team = team;
    std::vector<std::uint8_t> numbers;
    for (std::uint8_t number = 1; number <= 24; ++number) numbers.push_back(number);
    for (std::size_t i = numbers.size(); i > 1; --i)
        std::swap(numbers[i - 1], numbers[dice.below(i)]);
    constexpr std::size_t listed = 12;
    std::sort(numbers.begin(), numbers.begin() + listed);
    for (std::size_t i = 0; i < listed; ++i) roster.players[i] = Jersey{numbers[i]};
    roster.count = listed;
    roster.captain = roster.players[0];
    return roster;
}

LineUp invented_line_up(const Rules& rules, const MatchState& state, Team team, Dice& dice) {
    LineUp sheet;
    sheet.team = team;
    const TeamRecord& record = state.team[team];
    std::vector<Jersey> liberos;
    std::vector<Jersey> players;
    for (std::size_t i = 0; i < record.count; ++i) {
        const PlayerRecord& player = record.players[i];
        if (barred(state, player)) continue;
        if (player.libero == LiberoRole::designated && player.libero_unable == 0)
            liberos.push_back(player.jersey);
        else if (player.libero == LiberoRole::none)
            players.push_back(player.jersey);
    }
    const bool first_sheet = state.set.number <= 1 && liberos.empty();
    const std::size_t wanted = std::min<std::size_t>(rules.liberos_per_set, libero_boxes);
    while (first_sheet && liberos.size() < wanted && players.size() > 7) {
        liberos.push_back(players.back());
        players.pop_back();
    }
    // Rotate the starting order from set to set; keep the captain on court.
    const std::size_t shift = dice.below(players_on_court);
    for (std::size_t i = 0; i < players_on_court && i < players.size(); ++i)
        sheet.order[(i + shift) % players_on_court] = players[i];
    for (std::size_t box = 0; box < libero_boxes; ++box) {
        if (box < liberos.size())
            sheet.liberos[box] = {LiberoBox::Mark::number, liberos[box]};
        else
            sheet.liberos[box] = {LiberoBox::Mark::none, Jersey::none()};
    }
    const bool captain_plays =
        std::find(sheet.order.begin(), sheet.order.end(), record.captain) != sheet.order.end();
    sheet.captain = captain_plays ? record.captain : sheet.order[0];
    return sheet;
}

Team MatchPlayer::either() {
    return dice_.chance(500) ? Team::A : Team::B;
}

std::optional<Step> MatchPlayer::next(const Rules& rules, const MatchState& state) {
    const Prompt prompt = next_step(rules, state);
    if (prompt.kind == Prompt::Kind::match_finished) return std::nullopt;
    const bool in_set = state.set.number > 0 && state.set.stage != Stage::before_set &&
                        state.set.stage != Stage::set_over;
    if (in_set && may_undo_ && dice_.chance(habits_.undo)) {
        may_undo_ = false;
        return Step{};
    }
    // A place left empty by the last act is a slip of the table: it takes that act back. Never a
    // rally, or a place that stays empty would keep the match from going on.
    if (acted_ && prompt.kind == Prompt::Kind::place_empty) {
        acted_ = false;
        return Step{};
    }
    acted_ = false;
    may_undo_ = true;
    if (in_set && dice_.chance(habits_.ruling))
        if (auto fact = ruling(rules, state)) return Step{*fact, "ruled at the table"};
    if (prompt.kind == Prompt::Kind::decide_rally) {
        interrupted_ = 0;
        return Step{rally(state), {}};
    }
    if (interrupted_ >= most_acts_between_rallies && in_set) return Step{service(state), {}};
    if (prompt.kind != Prompt::Kind::serve) {
        if (in_set) ++interrupted_;
        return Step{in_set ? mend(rules, state, prompt) : prepare(rules, state, prompt), {}};
    }
    if (auto fact = interruption(rules, state)) {
        ++interrupted_;
        acted_ = true;
        return Step{*fact, {}};
    }
    if (state.set.stage == Stage::dead_ball && dice_.chance(habits_.whistle))
        return Step{Fact{Whistle{}}, {}};
    return Step{service(state), {}};
}

Fact MatchPlayer::prepare(const Rules& rules, const MatchState& state, const Prompt& prompt) {
    using Kind = Prompt::Kind;
    switch (prompt.kind) {
        case Kind::roster_missing:
            return invented_roster(prompt.team, dice_);
        case Kind::toss_missing:
            return Toss{either(), either()};
        case Kind::set_to_start:
            return SetStarted{static_cast<std::uint8_t>(state.set.number + 1)};
        case Kind::lineup_missing:
            return invented_line_up(rules, state, prompt.team, dice_);
        case Kind::libero_box_open: {
            const auto& boxes = state.set.team[prompt.team].boxes;
            const std::uint8_t box = boxes[0].mark == LiberoBox::Mark::blank ? 0 : 1;
            return LiberoBoxSettled{prompt.team, box, {LiberoBox::Mark::none, Jersey::none()}};
        }
        case Kind::check_missing:
            return LineUpChecked{prompt.team};
        case Kind::match_interrupted:
            return Resumed{};
        case Kind::none:
        case Kind::libero_must_leave:
        case Kind::place_empty:
        case Kind::barred_must_leave:
        case Kind::captain_to_name:
        case Kind::courts_to_switch:
        case Kind::serve:
        case Kind::decide_rally:
        case Kind::match_finished:
            break;
    }
    return mend(rules, state, prompt);
}

Fact MatchPlayer::mend(const Rules& rules, const MatchState& state, const Prompt& prompt) {
    using Kind = Prompt::Kind;
    const LegalActions legal = legal_actions(rules, state, prompt.team);
    if (prompt.kind == Kind::courts_to_switch) return CourtSwitch{};
    if (prompt.kind == Kind::check_missing) return LineUpChecked{prompt.team};
    if (prompt.kind == Kind::lineup_missing)
        return invented_line_up(rules, state, prompt.team, dice_);
    if (prompt.kind == Kind::captain_to_name)
        if (const Option* option = pick(legal.captains, true, dice_)) return option->fact;
    if (prompt.kind == Kind::libero_must_leave)
        if (const Option* option = find_legal<LiberoReplacement>(
                legal.replacements,
                [&](const LiberoReplacement& r) { return r.out == prompt.players[1]; }))
            return option->fact;
    if (prompt.kind == Kind::barred_must_leave || prompt.kind == Kind::place_empty) {
        const Jersey out = prompt.players[0];
        if (const Option* option = find_legal<Substitution>(
                legal.substitutions,
                [&](const Substitution& s) { return s.count == 1 && s.pairs[0].out == out; }))
            return option->fact;
        const auto free = bench(state, prompt.team);
        if (!free.empty() && prompt.kind == Kind::barred_must_leave)
            return ExceptionalSubstitution{prompt.team, free[dice_.below(free.size())], out,
                                           Cause::disqualification};
    }
    return service(state);
}

std::optional<Fact> MatchPlayer::ruling(const Rules& rules, const MatchState& state) {
    for (const Verdict& verdict : standing(rules, state)) {
        if (verdict.phase != Phase::open) continue;
        const auto decision =
            dice_.chance(800) ? Ruling::Decision::accept : Ruling::Decision::overrule;
        return Fact{Ruling{decision, verdict.reason, verdict.team}};
    }
    return std::nullopt;
}

std::optional<Fact> MatchPlayer::interruption(const Rules& rules, const MatchState& state) {
    if (state.set.stage != Stage::dead_ball) return std::nullopt;
    if (dice_.chance(habits_.illegal)) return illegal_act(rules, state);
    if (dice_.chance(habits_.replacement)) return replacement(rules, state);
    if (dice_.chance(habits_.substitution)) return substitution(rules, state);
    const bool short_of_liberos = libero_missing(state.team.a) || libero_missing(state.team.b);
    if (dice_.chance(short_of_liberos ? habits_.redesignation * 20 : habits_.redesignation))
        return redesignation(rules, state);
    if (dice_.chance(habits_.time_out)) {
        const Team team = either();
        if (state.set.team[team].time_outs < rules.time_outs) return Fact{TimeOut{team}};
    }
    if (dice_.chance(habits_.misconduct)) {
        const Team team = either();
        if (state.team[team].warned == 0)
            return Fact{Misconduct{team, state.team[team].players[0].jersey, Sanction::warning}};
    }
    return std::nullopt;
}

std::optional<Fact> MatchPlayer::replacement(const Rules& rules, const MatchState& state) {
    const Team team = either();
    const TeamSet& side = state.set.team[team];
    const LegalActions legal = legal_actions(rules, state, team);
    // A libero comes in for someone in the back row; coming out is asked for by the prompt.
    std::vector<Fact> fitting;
    for (const Option& option : legal.replacements) {
        const auto* fact = std::get_if<LiberoReplacement>(&option.fact);
        if (option.legal && fact != nullptr && acts_as_libero(side, fact->in))
            fitting.push_back(option.fact);
    }
    if (fitting.empty()) return std::nullopt;
    return fitting[dice_.below(fitting.size())];
}

std::optional<Fact> MatchPlayer::substitution(const Rules& rules, const MatchState& state) {
    const LegalActions legal = legal_actions(rules, state, either());
    const Option* option = pick(legal.substitutions, true, dice_);
    return option == nullptr ? std::nullopt : std::optional<Fact>{option->fact};
}

std::optional<Fact> MatchPlayer::redesignation(const Rules& rules, const MatchState& state) {
    const Team team = either();
    const LegalActions legal = legal_actions(rules, state, team);
    if (const Option* option = pick(legal.redesignations, true, dice_)) return option->fact;
    // Open only once the liberos are unable: next time round it can follow.
    for (const Jersey libero : state.set.team[team].liberos) {
        const PlayerRecord* player = find(state.team[team], libero);
        if (player == nullptr || player->libero_unable != 0) continue;
        const Cause cause = rules.declaration_is_enough != 0 ? Cause::declared : Cause::injury;
        return Fact{LiberoUnable{team, libero, cause}};
    }
    return std::nullopt;
}

std::optional<Fact> MatchPlayer::illegal_act(const Rules& rules, const MatchState& state) {
    const LegalActions legal = legal_actions(rules, state, either());
    const Option* option = dice_.chance(700) ? pick(legal.replacements, false, dice_)
                                             : pick(legal.substitutions, false, dice_);
    return option == nullptr ? std::nullopt : std::optional<Fact>{option->fact};
}

Fact MatchPlayer::service(const MatchState& state) {
    if (!dice_.chance(habits_.wrong_server)) return Serve{};
    const Team team = state.set.serving;
    const Six six = on_court(state.set.team[team]);
    const Jersey server = six[1 + dice_.below(5)];
    return server.worn() ? Serve{team, server} : Serve{};
}

Fact MatchPlayer::rally(const MatchState& state) {
    if (dice_.chance(habits_.replay)) return Replay{};
    // The receiving team wins somewhat more often than not, as in good play.
    return dice_.chance(560) ? RallyWon{opponent(state.set.serving)} : RallyWon{state.set.serving};
}

}  // namespace courthand::sim
