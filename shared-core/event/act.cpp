#include "courthand/event/act.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <variant>

#include "courthand/event/fact_fields.h"
#include "courthand/event/fold.h"

namespace courthand::event {
namespace {

/// The same to a person: the findings speak of other numbers where other facts came between.
[[nodiscard]] bool same(const Meaning& one, const Meaning& other) {
    const auto alike = [](const Finding& x, const Finding& y) {
        return x.problem == y.problem && x.fault == y.fault;
    };
    return one.effects == other.effects &&
           std::equal(one.findings.begin(), one.findings.end(), other.findings.begin(),
                      other.findings.end(), alike);
}

[[nodiscard]] bool share_one(const std::vector<std::string>& these,
                             const std::vector<std::string>& those) {
    return std::any_of(these.begin(), these.end(), [&](const std::string& one) {
        return std::find(those.begin(), those.end(), one) != those.end();
    });
}

/// Two facts of one kind about one thing: the second would write over the first. A note writes over
/// nothing.
[[nodiscard]] bool about_the_same(const Fact& one, const Fact& other) {
    if (one.index() != other.index() || std::holds_alternative<NoteWritten>(one)) return false;
    return std::visit(
        [&](const auto& fact) {
            using Kind = std::decay_t<decltype(fact)>;
            // The first field of a row says what the fact is about.
            const auto subject = std::get<0>(described<Kind>.fields).member;
            return fact.*subject == std::get<Kind>(other).*subject;
        },
        one);
}

[[nodiscard]] TournamentState with(TournamentState state, std::span<const Fact> said) {
    for (const Fact& fact : said) fold_in(state, fact);
    return state;
}

[[nodiscard]] std::string name_of(const TournamentState& state, TeamIndex team) {
    return team == no_team ? std::string{} : state.teams[team].name;
}

/// The pools with their teams, a line each and by names: indices are others in another state.
[[nodiscard]] std::set<std::string> pools_of(const TournamentState& state) {
    std::set<std::string> lines;
    for (const Division& division : state.divisions)
        for (const PoolState& pool : division.pools) {
            std::string line = fmt::format("{} pool {}:", division.rules.division, pool.name);
            for (const TeamIndex team : pool.teams) line += "/" + name_of(state, team);
            lines.insert(std::move(line));
        }
    return lines;
}

[[nodiscard]] bool says_nothing(const std::string& words) {
    return words.find_first_not_of(" \t\r\n") == std::string::npos;
}

/// Frozen lists by team, each in order: who is on a list counts, not who was named first.
using FrozenLists = std::map<std::string, std::vector<std::uint8_t>>;

/// Those that `fact` may change. A taking back may change any.
[[nodiscard]] FrozenLists lists_within_reach(const TournamentState& state, const Fact& fact) {
    const auto* const frozen = std::get_if<RosterFrozen>(&fact);
    FrozenLists lists;
    if (frozen == nullptr && !std::holds_alternative<TakenBack>(fact)) return lists;
    for (const Team& team : state.teams) {
        if (team.roster_frozen == 0 || (frozen != nullptr && team.name != frozen->team)) continue;
        auto& list = lists[team.name];
        list = team.roster;
        std::sort(list.begin(), list.end());
    }
    return lists;
}

/// The first team that still plays and whose list was frozen otherwise.
[[nodiscard]] std::optional<std::string> list_changed(const FrozenLists& before,
                                                      const TournamentState& after,
                                                      const Fact& fact) {
    const FrozenLists now = lists_within_reach(after, fact);
    for (const auto& [team, list] : before) {
        const auto found = now.find(team);
        if (after.find_team(team) && (found == now.end() || found->second != list)) return team;
    }
    return std::nullopt;
}

/// A time zone for matches whose times were said before there ever was one. One that takes the
/// place of a wrong one leaves the hands of the clock as they were said.
[[nodiscard]] bool is_late_zone(const TournamentState& state, const Fact& fact) {
    const auto* const opens = std::get_if<TournamentOpened>(&fact);
    if (opens == nullptr || state.opened) return false;
    if (opens->time_zone == "UTC" || opens->time_zone == "Etc/UTC") return false;
    const auto opening = std::find_if(
        state.facts.begin(), state.facts.end(),
        [](const Fact& earlier) { return std::holds_alternative<TournamentOpened>(earlier); });
    const auto said_before = static_cast<std::size_t>(opening - state.facts.begin());
    for (const Division& division : state.divisions)
        for (const MatchState& match : division.matches)
            if (match.placement && match.placement->at.given() &&
                match.placement->fact <= said_before)
                return true;
    return false;
}

[[nodiscard]] bool may_be_objected_to(const Said& said) {
    if (std::holds_alternative<TournamentOpened>(said.fact)) return true;
    return says_nothing(said.words) && (std::holds_alternative<RosterFrozen>(said.fact) ||
                                        std::holds_alternative<TakenBack>(said.fact));
}

/// What the act makes that was not there, pools and matches with their first sides: the effects,
/// which are of what there was, do not tell it.
[[nodiscard]] std::vector<std::string> made(const TournamentState& before,
                                            std::span<const Fact> said) {
    const TournamentState after = with(before, said);
    const std::set<std::string> had = pools_of(before);
    const std::set<std::string> has = pools_of(after);
    std::vector<std::string> lines;
    std::set_difference(has.begin(), has.end(), had.begin(), had.end(), std::back_inserter(lines));
    for (const auto& [name, ref] : after.match_names)
        if (!before.find_match(name))
            lines.push_back(fmt::format("match {}: {}/{}", name,
                                        name_of(after, after.side(ref, 0).team),
                                        name_of(after, after.side(ref, 1).team)));
    return lines;
}

}  // namespace

Meaning meaning_of(const TournamentState& state, std::span<const Fact> said) {
    const TournamentState after = with(state, said);
    Meaning found;
    std::copy_if(after.findings.begin(), after.findings.end(), std::back_inserter(found.findings),
                 [&](const Finding& finding) { return finding.fact > state.last(); });
    found.effects = difference(state, after);
    return found;
}

std::vector<Finding> objections(const TournamentState& state, std::span<const Said> said) {
    std::vector<Finding> found;
    // Most acts have nothing of the kind, and a state is large.
    if (std::none_of(said.begin(), said.end(), may_be_objected_to)) return found;
    TournamentState now = state;
    for (const Said& one : said) {
        const FrozenLists before =
            says_nothing(one.words) ? lists_within_reach(now, one.fact) : FrozenLists{};
        const bool late = is_late_zone(now, one.fact);
        fold_in(now, one.fact);
        if (const auto team = list_changed(before, now, one.fact))
            found.push_back({now.last(),
                             Problem::reason_missing,
                             {*team, "its list is frozen, and nothing says why it changes",
                              std::holds_alternative<TakenBack>(one.fact)
                                  ? "say the reason beside it, or change the list anew for a reason"
                                  : "say the reason beside the change"}});
        if (late)
            found.push_back({now.last(),
                             Problem::zone_late,
                             {"tournament",
                              "matches have times that were said before it had a time zone: they "
                              "are of UTC, and would move",
                              "take these matches off their places, open it, and place them again; "
                              "or open it in the zone UTC"}});
    }
    return found;
}

bool overtaken(const TournamentState& then, const TournamentState& now, std::span<const Fact> said,
               const Meaning& means) {
    for (const Fact& came : std::span{now.facts}.subspan(then.last()))
        for (const Fact& fact : said)
            if (about_the_same(fact, came)) return true;
    const Effects changed = difference(then, now);
    return share_one(changed.matches, means.effects.matches) ||
           share_one(changed.places, means.effects.places) ||
           !same(meaning_of(then, said), means) || made(then, said) != made(now, said);
}

}  // namespace courthand::event
