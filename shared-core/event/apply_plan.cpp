#include <fmt/format.h>

#include "event/applier.h"
#include "event/graph_steps.h"

namespace courthand::event {

void Applier::operator()(const DutyGiven& fact) {
    const auto ref = match(fact.match);
    if (!ref) return;
    for (const std::uint16_t referee : {fact.first_referee, fact.second_referee})
        if (referee != 0 && !person(referee)) return;
    if (!fact.crew.empty() && !state_.crews.contains(fact.crew))
        return find(Problem::unknown_crew, fact.crew, "there is no crew of this name",
                    "form it first, or correct the name");
    Duty duty;
    duty.fact = number_;
    duty.workers = fact.workers;
    duty.crew = fact.crew;
    duty.first_referee = fact.first_referee;
    duty.second_referee = fact.second_referee;
    Division& division = state_.divisions[ref->division];
    if (fact.workers.kind != Source::Kind::none) {
        auto source = GraphSteps{state_, division}.resolve(fact.workers, GraphSteps::Teams::any);
        if (auto* why = std::get_if<Refusal>(&source)) return find(std::move(*why));
        duty.source = std::get<SourceIndex>(source);
    }
    division.matches[ref->match].duty = std::move(duty);
}

void Applier::operator()(const MatchPlaced& fact) {
    const auto ref = match(fact.match);
    if (!ref || !court(fact.court)) return;
    state_.divisions[ref->division].matches[ref->match].placement =
        Placement{number_, fact.court, fact.at, fact.timing, fact.may_start_early};
}

void Applier::operator()(const MatchMoved& fact) {
    const auto ref = match(fact.match);
    if (!ref || !court(fact.court)) return;
    auto& placement = state_.divisions[ref->division].matches[ref->match].placement;
    if (!placement)
        return find(Problem::not_placed, fact.match, "the match has no place to be moved from",
                    "place it first");
    placement->fact = number_;
    placement->court = fact.court;
    placement->at = fact.at;
}

void Applier::operator()(const MatchUnplaced& fact) {
    const auto ref = match(fact.match);
    if (!ref) return;
    auto& placement = state_.divisions[ref->division].matches[ref->match].placement;
    if (!placement)
        return find(Problem::not_placed, fact.match, "the match has no place to be taken from",
                    "nothing is to be done");
    placement.reset();
}

void Applier::operator()(const PlanPublished& fact) {
    if (fact.version <= state_.plan.version)
        return find(Problem::version_back, "plan",
                    fmt::format("version {} is published already", state_.plan.version),
                    fmt::format("publish it as version {} or later", state_.plan.version + 1));
    state_.plan = {fact.version, number_, {}};
    for (const Division& division : state_.divisions)
        for (std::size_t m = 0; m < division.matches.size(); ++m)
            if (division.matches[m].placement)
                state_.plan.published.emplace(division.graph.matches[m].name,
                                              *division.matches[m].placement);
}

}  // namespace courthand::event
