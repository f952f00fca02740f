#include "courthand/event/settled_change.h"

#include <algorithm>
#include <string_view>
#include <variant>

namespace courthand::event {

namespace {

[[nodiscard]] bool list_changes(const TournamentState& before, const TournamentState& after) {
    return std::any_of(before.teams.begin(), before.teams.end(), [&](const Team& team) {
        if (team.roster_frozen == 0) return false;
        const auto now = after.find_team(team.name);
        return !now || after.teams[*now].roster_frozen == 0 ||
               after.teams[*now].roster != team.roster;
    });
}

[[nodiscard]] bool team_leaves(const TournamentState& before, const TournamentState& after) {
    return std::any_of(before.teams.begin(), before.teams.end(), [&](const Team& team) {
        const auto now = after.find_team(team.name);
        return !team.withdrawn && now && after.teams[*now].withdrawn;
    });
}

/// What a result says, without the fact that said it: confirmed again as it was, it is the same.
[[nodiscard]] bool same(const Result& a, const Result& b) {
    return a.sets == b.sets && a.award == b.award && a.ending == b.ending;
}

[[nodiscard]] bool result_changes(const TournamentState& before, const TournamentState& after) {
    const auto changes = [&](const auto& named) {
        const MatchState& was = before.match(named.second);
        if (!was.result || !was.result_counts) return false;
        const auto now = after.find_match(named.first);
        if (!now) return true;
        const MatchState& is = after.match(*now);
        return !is.result || !is.result_counts || !same(*was.result, *is.result);
    };
    return std::any_of(before.match_names.begin(), before.match_names.end(), changes);
}

[[nodiscard]] const Placement* place_of(const TournamentState& state, std::string_view match) {
    const auto ref = state.find_match(match);
    if (!ref || !state.match(*ref).placement) return nullptr;
    return &*state.match(*ref).placement;
}

[[nodiscard]] bool plan_changes(const TournamentState& before, const TournamentState& after) {
    const auto changes = [&](const auto& published) {
        const Placement* const was = place_of(before, published.first);
        const Placement* const is = place_of(after, published.first);
        if (was == nullptr || is == nullptr) return was != is;
        return was->court != is->court || was->at != is->at || was->timing != is->timing ||
               was->may_start_early != is->may_start_early;
    };
    return std::any_of(before.plan.published.begin(), before.plan.published.end(), changes);
}

[[nodiscard]] bool takes_back(std::span<const Fact> said) {
    return std::any_of(said.begin(), said.end(),
                       [](const Fact& fact) { return std::holds_alternative<TakenBack>(fact); });
}

}  // namespace

std::vector<Settled> settled_changes(const TournamentState& before, const TournamentState& after,
                                     std::span<const Fact> said) {
    std::vector<Settled> found;
    if (list_changes(before, after)) found.push_back(Settled::list);
    if (team_leaves(before, after)) found.push_back(Settled::left);
    if (result_changes(before, after)) found.push_back(Settled::result);
    if (plan_changes(before, after)) found.push_back(Settled::plan);
    if (takes_back(said)) found.push_back(Settled::taken_back);
    return found;
}

}  // namespace courthand::event
