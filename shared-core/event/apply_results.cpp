#include <fmt/format.h>

#include <algorithm>

#include "courthand/event/advance.h"
#include "event/applier.h"
#include "event/score_check.h"
#include "event/settlement.h"

namespace courthand::event {

namespace {

/// The match before it has a result, and nobody goes on from there.
[[nodiscard]] bool nobody_comes(const Division& division, SourceIndex side) {
    const tournament::Source& s = division.graph.sources[side];
    return (s.kind == tournament::Source::Kind::winner ||
            s.kind == tournament::Source::Kind::loser) &&
           division.matches[s.of].result_counts;
}

}  // namespace

std::optional<MatchRef> Applier::playable(const std::string& name) {
    const auto ref = match(name);
    if (!ref) return std::nullopt;
    const Division& division = state_.divisions[ref->division];
    const tournament::Match& node = division.graph.matches[ref->match];
    if (division.matches[ref->match].result) {
        find(Problem::result_there, name, "the match has a result already",
             "reopen it first, then confirm the right one");
        return std::nullopt;
    }
    for (const SourceIndex side : node.sides) {
        const Side who = division.settled[side];
        if (who.is_team()) continue;
        if (who.state == Side::State::bye)
            find(Problem::not_played, name, "a side is a bye: the match is not played",
                 "take the result back");
        else
            find(Problem::sides_unknown, name,
                 fmt::format("{} is not known: {}", source_words(state_, ref->division, side),
                             why_open(state_, ref->division, side)),
                 nobody_comes(division, side) ? "give it other sides first"
                                              : "confirm the result that is missing first");
        return std::nullopt;
    }
    const TeamIndex first = division.settled[node.sides[0]].team;
    if (first == division.settled[node.sides[1]].team) {
        find(Problem::sides_impossible, name,
             fmt::format("{} is on both sides", state_.teams[first].name), "give it other sides");
        return std::nullopt;
    }
    if (!node.only_if_second_won) return ref;
    const auto before = division.matches[*node.only_if_second_won].winner;
    if (before == tournament::Winner::second) return ref;
    find(Problem::not_played, name,
         fmt::format("it is played only if the second side of {} wins",
                     division.graph.matches[*node.only_if_second_won].name),
         "take the result back");
    return std::nullopt;
}

std::optional<std::size_t> Applier::side_of(MatchRef ref, TeamIndex team) {
    for (std::size_t i = 0; i < 2; ++i) {
        const Side side = state_.side(ref, i);
        if (side.is_team() && side.team == team) return i;
    }
    find(Problem::not_a_side, state_.node(ref).name,
         fmt::format("{} is not known to play this match", state_.teams[team].name),
         "name one of its two teams");
    return std::nullopt;
}

void Applier::keep(MatchRef ref, Result result) {
    result.fact = number_;
    for (std::size_t i = 0; i < 2; ++i) result.teams[i] = state_.side(ref, i).team;
    Division& division = state_.divisions[ref.division];
    division.matches[ref.match].result = std::move(result);
    Settlement{state_, division}.match(ref.match);
}

void Applier::operator()(const RecordOpened& fact) {
    const auto ref = match(fact.match);
    if (ref) state_.divisions[ref->division].matches[ref->match].record = fact.record;
}

void Applier::operator()(const ResultConfirmed& fact) {
    const auto ref = playable(fact.match);
    if (!ref) return;
    if (is_from_record(fact.from) && !fact.head.given())
        return find(Problem::head_missing, fact.match,
                    "a result from a table does not name the head of its record",
                    "confirm it with the head hash, or as typed from paper");
    // Of a match without a record fact nothing is known that the result could contradict.
    const RecordId record = state_.match(*ref).record;
    if (is_from_record(fact.from) && record.given() && fact.record != record)
        return find(Problem::head_missing, fact.match,
                    "the result is of another record than the one the match has now",
                    "confirm the result of its present record, or as typed from paper");
    if (const std::string why = impossible(state_.match(*ref).format, fact.sets); !why.empty())
        return find(Problem::score_impossible, fact.match, why, "correct the score");
    Result result;
    result.sets = fact.sets;
    result.from = fact.from;
    result.record = fact.record;
    result.head = fact.head;
    keep(*ref, std::move(result));
}

void Applier::operator()(const ResultReopened& fact) {
    const auto ref = match(fact.match);
    if (!ref) return;
    Division& division = state_.divisions[ref->division];
    if (!division.matches[ref->match].result)
        return find(Problem::result_missing, fact.match, "the match has no result to reopen",
                    "nothing is to be done");
    division.matches[ref->match].result.reset();
    Settlement{state_, division}.match(ref->match);
}

void Applier::operator()(const MatchAwarded& fact) {
    const auto ref = playable(fact.match);
    if (!ref) return;
    Result result;
    result.award = fact.how;
    if (fact.how == Award::double_default) {
        result.ending = standings::Ending::forfeit_by_both;
        return keep(*ref, std::move(result));
    }
    const auto loser = team(fact.team);
    if (!loser) return;
    const auto side = side_of(*ref, *loser);
    if (!side) return;
    const MatchFormat& format = state_.match(*ref).format;
    if (fact.how == Award::team_short) {
        result.sets = completed(format, fact.sets, *side == 0);
        if (const std::string why = impossible(format, result.sets); !why.empty())
            return find(Problem::score_impossible, fact.match, why,
                        "give the sets as they stood, the last one unfinished");
    } else {
        result.sets = lost_outright(format, *side == 0);
        result.ending =
            *side == 0 ? standings::Ending::forfeit_by_first : standings::Ending::forfeit_by_second;
    }
    keep(*ref, std::move(result));
}

void Applier::operator()(const LateClock& fact) {
    const auto ref = match(fact.match);
    const auto who = ref ? team(fact.team) : std::nullopt;
    if (!who) return;
    if (fact.party == LateParty::team && !side_of(*ref, *who)) return;
    auto& clocks = state_.divisions[ref->division].matches[ref->match].clocks;
    auto clock = std::find_if(clocks.begin(), clocks.end(), [&](const RunningClock& c) {
        return c.team == *who && c.party == fact.party;
    });
    const auto wrong = [&](std::string message, std::string cure) {
        find(Problem::clock_wrong, fact.match, std::move(message), std::move(cure));
    };
    if (fact.act == ClockAct::started) {
        if (clock == clocks.end()) clock = clocks.insert(clocks.end(), {*who, fact.party, 0, {}});
        if (clock->since.given() || clock->stopped)
            return wrong(clock->stopped ? "the clock was stopped" : "the clock runs already",
                         "take the stop back, or say nothing");
        clock->since = fact.at;
        return;
    }
    const bool runs = clock != clocks.end() && clock->since.given();
    if (!runs && (fact.act == ClockAct::paused || clock == clocks.end() || clock->stopped))
        return wrong("the clock does not run", "start it first");
    if (runs && fact.at < clock->since)
        return wrong("the clock would end before it began", "correct the time");
    if (runs) clock->minutes += fact.at.minutes - clock->since.minutes;
    clock->since = {};
    clock->stopped = fact.act == ClockAct::stopped;
}

void Applier::operator()(const DecisionMade& fact) {
    const auto in = division(fact.division);
    if (!in) return;
    const std::string place = "pool " + fact.pool;
    const auto index = state_.find_pool(*in, fact.pool);
    if (!index)
        return find(Problem::unknown_pool, place, "there is no pool of this name",
                    "name a pool of the division");
    PoolState& pool = state_.divisions[*in].pools[*index];
    PoolDecision decision{number_, fact.by, {}};
    for (const std::string& name : fact.teams) {
        const auto named = team(name);
        if (!named) return;
        if (std::find(pool.teams.begin(), pool.teams.end(), *named) == pool.teams.end())
            return find(Problem::unknown_team, place, name + " is not in this pool",
                        "name teams of the pool");
        const auto& order = decision.order;
        if (std::find(order.begin(), order.end(), *named) != order.end())
            return find(Problem::number_twice, place, name + " is named twice",
                        "name each team once");
        decision.order.push_back(*named);
    }
    pool.decisions.push_back(std::move(decision));
    Settlement{state_, state_.divisions[*in]}.pool(*index);
}

void Applier::operator()(const PenaltyCarried& fact) {
    const auto ref = match(fact.match);
    const auto who = ref ? team(fact.team) : std::nullopt;
    if (!who) return;
    const bool known = state_.side(*ref, 0).is_team() && state_.side(*ref, 1).is_team();
    if (known && !side_of(*ref, *who)) return;
    auto& carried = state_.divisions[ref->division].matches[ref->match].carried;
    carried.push_back({number_, *who, fact.points});
}

}  // namespace courthand::event
