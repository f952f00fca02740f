#include "court_pick.h"

#include <algorithm>

namespace courthand::client {

namespace {

bool stands(const Six& six, Jersey jersey) {
    return std::find(six.begin(), six.end(), jersey) != six.end();
}

/// In the team list, on its line-up sheet or on its floor.
bool has(const MatchState& state, Team team, Jersey jersey) {
    const TeamSet& set = state.set.team[team];
    return find(state.team[team], jersey) != nullptr || stands(on_court(set), jersey) ||
           beside(set, 0) == jersey || beside(set, 1) == jersey;
}

}  // namespace

CourtPick::Result CourtPick::touch(const Rules& rules, const MatchState& state, Team team,
                                   Jersey jersey) {
    if (!jersey.worn()) return Nothing{};
    if (!choice_.made() || choice_.team != team) return choose(rules, state, team, jersey);
    if (choice_.jersey == jersey) {
        let_go();
        return Nothing{};
    }
    const Option* option = choice_.with(jersey);
    if (option == nullptr) return choose(rules, state, team, jersey);
    if (option->legal) return Record{option->fact};
    return Propose{*option};
}

CourtPick::Result CourtPick::choose(const Rules& rules, const MatchState& state, Team team,
                                    Jersey jersey) {
    const TeamSet& set = state.set.team[team];
    const bool about_libero =
        acts_as_libero(set, jersey) || beside(set, 0) == jersey || beside(set, 1) == jersey;
    choice_ = {};
    if (!about_libero) {
        let_go();
        return Substitute{team, jersey};
    }
    choice_.team = team;
    choice_.jersey = jersey;
    for (const Option& option : legal_actions(rules, state, team).replacements) {
        const auto* replacement = std::get_if<LiberoReplacement>(&option.fact);
        if (replacement != nullptr && (replacement->in == jersey || replacement->out == jersey))
            choice_.options.push_back(option);
    }
    add_other_returners(rules, state);
    return Nothing{};
}

void CourtPick::add_other_returners(const Rules& rules, const MatchState& state) {
    const Six six = on_court(state.set.team[choice_.team]);
    if (!stands(six, choice_.jersey)) return;
    const TeamRecord& record = state.team[choice_.team];
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey in = record.players[i].jersey;
        if (stands(six, in) || choice_.with(in) != nullptr) continue;
        choice_.options.push_back(
            option_for(rules, state, LiberoReplacement{choice_.team, in, choice_.jersey}));
    }
}

void CourtPick::let_go() {
    choice_ = {};
    typing_for_.reset();
    typed_.clear();
    asks_for_team_ = false;
}

void CourtPick::next_team(Team first) {
    // A number that waits for its team stays.
    if (!asks_for_team_) typed_.clear();
    choice_ = {};
    if (!typing_for_)
        typing_for_ = first;
    else if (*typing_for_ == first)
        typing_for_ = opponent(first);
    else
        typing_for_.reset();
}

bool CourtPick::digit(int figure) {
    if (asks_for_team_) {
        typed_.clear();
        asks_for_team_ = false;
    }
    typed_.digit(figure);
    return typed_.full();
}

CourtPick::Result CourtPick::enter(const Rules& rules, const MatchState& state) {
    const auto number = typed_.number();
    if (!number) return Nothing{};
    const Jersey jersey = *number;
    const PerTeam<bool> with{has(state, Team::A, jersey), has(state, Team::B, jersey)};
    std::optional<Team> team = typing_for_;
    if (!team && choice_.made() && with[choice_.team]) team = choice_.team;
    if (!team && with.a != with.b) team = with.a ? Team::A : Team::B;
    if (!team && with.a) {
        asks_for_team_ = true;
        return Nothing{};
    }
    typed_.clear();
    asks_for_team_ = false;
    if (!team || !with[*team]) return Unknown{jersey, team};
    typing_for_ = team;
    return touch(rules, state, *team, jersey);
}

}  // namespace courthand::client
