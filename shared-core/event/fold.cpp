#include "courthand/event/fold.h"

#include <fmt/format.h>

#include <utility>

#include "event/applier.h"

namespace courthand::event {

// --- who is named -------------------------------------------------------------------------------

std::optional<MatchRef> TournamentState::find_match(std::string_view name) const {
    const auto found = match_names.find(name);
    return found == match_names.end() ? std::nullopt : std::optional{found->second};
}
std::optional<TeamIndex> TournamentState::find_team(std::string_view name) const {
    const auto found = team_names.find(name);
    return found == team_names.end() ? std::nullopt : std::optional{found->second};
}
std::optional<DivisionIndex> TournamentState::find_division(std::string_view code) const {
    const auto found = division_names.find(code);
    return found == division_names.end() ? std::nullopt : std::optional{found->second};
}
std::optional<PoolIndex> TournamentState::find_pool(DivisionIndex division,
                                                    std::string_view name) const {
    const auto& pools = divisions[division].pools;
    for (std::size_t p = 0; p < pools.size(); ++p)
        if (pools[p].name == name) return static_cast<PoolIndex>(p);
    return std::nullopt;
}

void Applier::find(Problem problem, std::string place, std::string message, std::string cure) {
    find({problem, {std::move(place), std::move(message), std::move(cure)}});
}
void Applier::find(std::pair<Problem, tournament::Fault> found) {
    state_.findings.push_back({number_, found.first, std::move(found.second)});
}

std::optional<DivisionIndex> Applier::division(const std::string& code) {
    const auto found = state_.find_division(code);
    if (!found)
        find(Problem::unknown_division, "division " + code, "there is no division of this code",
             "open it first, or correct the code");
    return found;
}
std::optional<TeamIndex> Applier::team(const std::string& name) {
    const auto found = state_.find_team(name);
    if (!found)
        find(Problem::unknown_team, name.empty() ? "team" : name,
             name.empty() ? "no team is named" : "there is no team of this name",
             "enter it first, or correct the name");
    return found;
}
std::optional<MatchRef> Applier::match(const std::string& name) {
    const auto found = state_.find_match(name);
    if (!found)
        find(Problem::unknown_match, name, "there is no match of this name",
             "draw or add it first, or correct the name");
    return found;
}
bool Applier::court(std::uint16_t number) {
    const bool known = state_.courts.contains(number);
    if (!known)
        find(Problem::unknown_court, fmt::format("court {}", number), "there is no such court",
             "open it first, or correct the number");
    return known;
}
bool Applier::person(std::uint16_t number) {
    const bool known = state_.persons.contains(number);
    if (!known)
        find(Problem::unknown_person, fmt::format("person {}", number), "nobody has this number",
             "list the person first, or correct the number");
    return known;
}

void Applier::operator()(const NoteWritten& fact) {
    if (!fact.match.empty() && !match(fact.match)) return;
    if (!fact.team.empty()) (void)team(fact.team);
}

// --- taking back --------------------------------------------------------------------------------

/// Only what speaks against it: the facts that count are found before any is applied.
void Applier::operator()(const TakenBack& fact) {
    const std::string place = fmt::format("fact {}", fact.fact);
    if (fact.fact >= number_)
        return find(Problem::unknown_fact, place, "there is no earlier fact of this number",
                    "name a fact that was said before");
    for (FactNumber n = fact.fact + 1; n < number_; ++n) {
        const auto* earlier = std::get_if<TakenBack>(&state_.facts[n - 1]);
        if (earlier != nullptr && earlier->fact == fact.fact && state_.counts[n - 1])
            return find(Problem::unknown_fact, place, "it is taken back already",
                        "nothing is to be done");
    }
}

std::vector<bool> counting(std::span<const Fact> facts) {
    std::vector<bool> counts(facts.size(), true);
    for (std::size_t i = facts.size(); i-- > 0;) {
        const auto* back = std::get_if<TakenBack>(&facts[i]);
        if (back != nullptr && counts[i] && back->fact >= 1 && back->fact <= i)
            counts[back->fact - 1] = false;
    }
    return counts;
}

namespace {

/// Applies those facts of `facts` that count; `facts` becomes part of the state.
TournamentState folded(std::vector<Fact> facts, std::vector<bool> counts) {
    TournamentState state;
    state.facts = std::move(facts);
    state.counts = std::move(counts);
    for (std::size_t i = 0; i < state.facts.size(); ++i)
        if (state.counts[i])
            std::visit(Applier{state, static_cast<FactNumber>(i + 1)}, state.facts[i]);
    return state;
}

}  // namespace

TournamentState fold(std::span<const Fact> facts) {
    return folded({facts.begin(), facts.end()}, counting(facts));
}

void fold_in(TournamentState& state, const Fact& fact) {
    state.facts.push_back(fact);
    if (std::holds_alternative<TakenBack>(fact)) {
        std::vector<bool> counts = counting(state.facts);
        state = folded(std::move(state.facts), std::move(counts));
        return;
    }
    state.counts.push_back(true);
    std::visit(Applier{state, state.last()}, fact);
}

}  // namespace courthand::event
