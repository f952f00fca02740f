#include "courthand/event_script/event_replay.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "courthand/event/act.h"
#include "courthand/event/advance.h"
#include "courthand/event/choices.h"
#include "courthand/event/effects.h"
#include "courthand/event/fold.h"
#include "courthand/event/lateness.h"
#include "courthand/event/pool_table.h"

namespace courthand::event {
namespace {

using Kind = Expectation::Kind;

[[nodiscard]] std::string name_of(const TournamentState& state, TeamIndex team) {
    return team == no_team ? std::string{"nobody"} : state.teams[team].name;
}

[[nodiscard]] std::string words(const Finding& finding) {
    return fmt::format("finding {} for fact {}: {}: {}; {}", word_of(finding.problem), finding.fact,
                       finding.fault.place, finding.fault.message, finding.fault.cure);
}

[[nodiscard]] std::optional<Finding> of_last(const TournamentState& state) {
    if (state.findings.empty() || state.findings.back().fact != state.last()) return std::nullopt;
    return state.findings.back();
}

struct PoolRef {
    DivisionIndex division = 0;
    PoolIndex pool = 0;
};

/// The pool of the named division, or of the first that has one of this name.
[[nodiscard]] std::optional<PoolRef> find_pool(const Expectation& e, const TournamentState& state) {
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        if (!e.division.empty() && state.divisions[d].rules.division != e.division) continue;
        if (const auto pool = state.find_pool(d, e.word)) return PoolRef{d, *pool};
    }
    return std::nullopt;
}

[[nodiscard]] std::optional<DivisionIndex> find_division(const Expectation& e,
                                                         const TournamentState& state) {
    if (!e.division.empty()) return state.find_division(e.division);
    if (state.divisions.empty()) return std::nullopt;
    return DivisionIndex{0};
}

/// What gave a place: the last step that separated, or who decided.
[[nodiscard]] std::string cause_of(const Division& division, const standings::Table& table,
                                   const standings::Pool& pool, const standings::Place& place) {
    if (place.decision) return std::string{choice_word(pool.decisions[*place.decision].by)};
    for (auto c = place.because.rbegin(); c != place.because.rend(); ++c)
        if (table.comparisons[*c].separated)
            return std::string{
                standings::name_of(division.chain->steps[table.comparisons[*c].step].criterion)};
    return "nothing";
}

[[nodiscard]] std::string check_place(const Expectation& e, const TournamentState& state,
                                      PoolRef ref) {
    const Division& division = state.divisions[ref.division];
    const auto ranked = pool_table(state, ref.division, ref.pool);
    if (const auto* faults = std::get_if<standings::Faults>(&ranked))
        return fmt::format("{}: {}", faults->front().place, faults->front().message);
    const auto& table = std::get<standings::Table>(ranked);
    const standings::Pool pool = standings_pool(state, ref.division, ref.pool);
    const auto there = table.team_at(static_cast<std::uint16_t>(e.number));
    if (!there) return fmt::format("place {} is not decided", e.number);
    if (pool.teams[*there] != e.names.front())
        return fmt::format("place {} is {}", e.number, pool.teams[*there]);
    for (const standings::Place& place : table.places) {
        if (place.number != e.number || e.because.empty()) continue;
        const std::string cause = cause_of(division, table, pool, place);
        if (cause != e.because) return "because of " + cause;
    }
    return {};
}

[[nodiscard]] std::string check_undecided(const Expectation& e, const TournamentState& state,
                                          PoolRef ref) {
    const auto open = undecided(state, ref.division, ref.pool);
    const std::size_t waits = state.divisions[ref.division].pools[ref.pool].open_matches;
    if (waits != 0) return fmt::format("{} matches of the pool are open", waits);
    std::vector<std::string> names;
    const PoolState& pool = state.divisions[ref.division].pools[ref.pool];
    for (const standings::Place& place : open)
        for (const standings::TeamIndex team : place.teams)
            names.push_back(name_of(state, pool.teams[team]));
    if (e.kind == Kind::decided)
        return open.empty() ? std::string{} : fmt::format("undecided: {}", fmt::join(names, ", "));
    if (open.empty()) return "every place is decided";
    std::vector<std::string> expected = e.names;
    std::sort(expected.begin(), expected.end());
    std::sort(names.begin(), names.end());
    return expected.empty() || expected == names ? std::string{}
                                                 : fmt::format("{}", fmt::join(names, ", "));
}

[[nodiscard]] std::string check_provisional(const Expectation& e, const TournamentState& state,
                                            PoolRef ref) {
    const auto found = standing(state, ref.division, ref.pool);
    if (const auto* faults = std::get_if<standings::Faults>(&found))
        return fmt::format("{}: {}", faults->front().place, faults->front().message);
    const auto& how = std::get<Standing>(found);
    if (!how.provisional()) return "every match of the pool is played";
    if (!how.table.decided()) return "a decision is asked for";
    std::vector<std::string> names;
    for (const standings::TeamIndex team : how.unplayed)
        names.push_back(name_of(state, state.divisions[ref.division].pools[ref.pool].teams[team]));
    return names == e.names ? std::string{}
                            : fmt::format("without a place: {}", fmt::join(names, ", "));
}

[[nodiscard]] std::string check_of_pool(const Expectation& e, const TournamentState& state) {
    const auto ref = find_pool(e, state);
    if (!ref) return "there is no such pool";
    if (e.kind == Kind::place) return check_place(e, state, *ref);
    if (e.kind == Kind::provisional) return check_provisional(e, state, *ref);
    if (e.kind != Kind::pool) return check_undecided(e, state, *ref);
    std::vector<std::string> names;
    for (const TeamIndex team : state.divisions[ref->division].pools[ref->pool].teams)
        names.push_back(name_of(state, team));
    return names == e.names ? std::string{} : fmt::format("{}", fmt::join(names, ", "));
}

[[nodiscard]] std::string check_side(const Expectation& e, const TournamentState& state,
                                     MatchRef ref) {
    const Side side = state.side(ref, e.second ? 1 : 0);
    const SourceIndex source = state.node(ref).sides[e.second ? 1 : 0];
    const std::string why = why_open(state, ref.division, source);
    switch (side.state) {
        case Side::State::bye:
            return e.who == Expectation::Who::bye ? std::string{} : "a bye";
        case Side::State::open:
            if (e.who == Expectation::Who::open && why.find(e.because) != std::string::npos)
                return {};
            return fmt::format("{} is open: {}", source_words(state, ref.division, source), why);
        case Side::State::team:
            break;
    }
    const std::string name = name_of(state, side.team);
    return e.who == Expectation::Who::team && e.names.front() == name ? std::string{} : name;
}

[[nodiscard]] std::string check_works(const Expectation& e, const TournamentState& state,
                                      MatchRef ref) {
    const Division& division = state.divisions[ref.division];
    const Duty& duty = state.match(ref).duty;
    const auto source = duty.fact != 0 ? duty.source : state.node(ref).workers;
    const Side side = source ? division.settled[*source] : Side{};
    const std::string name = name_of(state, side.team);
    return name == e.names.front() ? std::string{} : name;
}

[[nodiscard]] std::string check_result(const Expectation& e, const TournamentState& state,
                                       MatchRef ref) {
    const MatchState& match = state.match(ref);
    if (e.kind == Kind::doubt) {
        if (!match.result) return "there is no result";
        return match.result_counts ? "the result counts" : std::string{};
    }
    const std::vector<SetScore> sets =
        match.result_counts ? match.result->sets : std::vector<SetScore>{};
    if (sets == e.sets) return {};
    std::string found = sets.empty() ? "no sets" : "";
    for (const SetScore set : sets) found += fmt::format(" {}-{}", set.first, set.second);
    return found;
}

[[nodiscard]] std::string check_late(const Expectation& e, const TournamentState& state,
                                     MatchRef ref) {
    for (const RunningClock& clock : state.match(ref).clocks) {
        if (name_of(state, clock.team) != e.names.front()) continue;
        const LatePenalty penalty = late_penalty(state.divisions[ref.division], clock, e.at);
        const std::string lost = penalty.match_lost       ? "match"
                                 : penalty.first_set_lost ? "first-set"
                                                          : "";
        if (penalty.points == e.number && lost == e.because) return {};
        return fmt::format("{} minutes: {} points {}", penalty.minutes, penalty.points, lost);
    }
    return "no clock of this team";
}

[[nodiscard]] std::string check_of_match(const Expectation& e, const TournamentState& state) {
    const auto ref = state.find_match(e.word);
    if (!ref) return "there is no such match";
    if (e.kind == Kind::side) return check_side(e, state, *ref);
    if (e.kind == Kind::works) return check_works(e, state, *ref);
    if (e.kind == Kind::late) return check_late(e, state, *ref);
    if (e.kind != Kind::reopens) return check_result(e, state, *ref);
    const auto found = effects_of_reopening(state, *ref).matches;
    return found == e.names ? std::string{} : fmt::format("{}", fmt::join(found, ","));
}

[[nodiscard]] std::string check_final(const Expectation& e, const TournamentState& state) {
    const auto division = find_division(e, state);
    if (!division) return "there is no such division";
    std::string found;
    for (const Ended& ended : final_places(state, *division)) {
        if (ended.first > e.number || ended.last < e.number) continue;
        if (name_of(state, ended.team) == e.names.front()) return {};
        found += (found.empty() ? "" : ", ") + name_of(state, ended.team);
    }
    return found.empty() ? "nobody yet" : found;
}

[[nodiscard]] std::string counted(std::size_t found, const Expectation& e) {
    return found == e.number ? std::string{} : std::to_string(found);
}

[[nodiscard]] std::string check_back(const Expectation& e, const TournamentState& state) {
    const auto found = effects_of_taking_back(state, e.number).facts;
    return found == e.numbers ? std::string{} : fmt::format("{}", fmt::join(found, " "));
}

[[nodiscard]] std::string check_finding(const Expectation& e, const std::optional<Finding>& found) {
    if (e.kind == Kind::fine) return found ? words(*found) : std::string{};
    if (!found) return "the last fact took effect";
    return found->problem == e.problem ? std::string{} : words(*found);
}

/// What is instead of the expectation; empty when it holds. `found` is of the last fact.
[[nodiscard]] std::string mismatch(const Expectation& e, const TournamentState& state,
                                   const std::optional<Finding>& found) {
    switch (e.kind) {
        case Kind::fine:
        case Kind::finding:
            return check_finding(e, found);
        case Kind::place:
        case Kind::undecided:
        case Kind::decided:
        case Kind::provisional:
        case Kind::pool:
            return check_of_pool(e, state);
        case Kind::final:
            return check_final(e, state);
        case Kind::matches: {
            const auto division = find_division(e, state);
            if (!division) return "there is no such division";
            return counted(state.divisions[*division].graph.matches.size(), e);
        }
        case Kind::side:
        case Kind::result:
        case Kind::doubt:
        case Kind::works:
        case Kind::reopens:
        case Kind::late:
            return check_of_match(e, state);
        case Kind::back:
            return check_back(e, state);
        case Kind::changed:
            return counted(changes_since_published(state).size(), e);
        case Kind::waiting:
            return counted(waiting(state).size(), e);
    }
    return {};
}

}  // namespace

bool EventReplay::next() {
    if (next_ == script_.lines.size()) return false;
    const EventLine& line = script_.lines[next_++];
    found_.clear();
    if (const auto* expected = std::get_if<Expectation>(&line.content)) {
        found_ = mismatch(*expected, state_, finding());
        return true;
    }
    const Said& said = std::get<Said>(line.content);
    const auto objected = objections(state_, {&said, 1});
    objection_ = objected.empty() ? std::nullopt : std::optional{objected.front()};
    fold_in(state_, said.fact);
    return true;
}

std::optional<Finding> EventReplay::finding() const {
    const auto found = of_last(state_);
    return found ? found : objection_;
}

std::vector<Failure> failures(const EventScript& script) {
    std::vector<Failure> all;
    EventReplay replay{script};
    while (replay.next())
        if (!replay.found().empty())
            all.push_back({replay.line().line,
                           event_line(std::get<Expectation>(replay.line().content)),
                           replay.found()});
    return all;
}

}  // namespace courthand::event
