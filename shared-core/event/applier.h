// What each kind of fact does to the state. Internal to shared-core/event.
//
// One overload for each kind: a new one does not compile before it is added. The sources follow the
// headers of the facts: apply_setup, apply_entries, apply_structure, apply_plan, apply_results.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "courthand/event/state.h"

namespace courthand::event {

class Applier {
  public:
    Applier(TournamentState& state, FactNumber number) : state_{state}, number_{number} {}

    void operator()(const TournamentOpened& fact);
    void operator()(const DivisionOpened& fact);
    void operator()(const CourtOpened& fact);
    void operator()(const TeamEntered& fact);
    void operator()(const TeamWithdrawn& fact);
    void operator()(const RosterFrozen& fact);
    void operator()(const PersonListed& fact);
    void operator()(const ConflictDeclared& fact);
    void operator()(const CrewFormed& fact);
    void operator()(const SeedsGiven& fact);
    void operator()(const DrawMade& fact);
    void operator()(const TeamMoved& fact);
    void operator()(const BracketMade& fact);
    void operator()(const MatchAdded& fact);
    void operator()(const SidesGiven& fact);
    void operator()(const DutyGiven& fact);
    void operator()(const MatchPlaced& fact);
    void operator()(const MatchMoved& fact);
    void operator()(const PlanPublished& fact);
    void operator()(const RecordOpened& fact);
    void operator()(const ResultConfirmed& fact);
    void operator()(const ResultReopened& fact);
    void operator()(const MatchAwarded& fact);
    void operator()(const LateClock& fact);
    void operator()(const DecisionMade& fact);
    void operator()(const PenaltyCarried& fact);
    void operator()(const NoteWritten& fact);
    void operator()(const TakenBack& fact);
    void operator()(const TeamDescribed& fact);
    void operator()(const MatchUnplaced& fact);
    void operator()(const ConfirmerNamed& fact);

  private:
    void find(Problem problem, std::string place, std::string message, std::string cure);
    void find(std::pair<Problem, tournament::Fault> found);

    // Who is named; a finding when nobody is.
    std::optional<DivisionIndex> division(const std::string& code);
    std::optional<TeamIndex> team(const std::string& name);
    std::optional<MatchRef> match(const std::string& name);
    bool court(std::uint16_t number);
    bool person(std::uint16_t number);

    /// The match with both its teams, when it can have a result now.
    std::optional<MatchRef> playable(const std::string& name);
    void keep(MatchRef ref, Result result);
    /// 0 or 1: the side the team is on; a finding when it does not play the match.
    std::optional<std::size_t> side_of(MatchRef ref, TeamIndex team);

    /// Puts a changed division in the place of the old one and indexes its matches, unless a name
    /// is taken.
    bool commit(DivisionIndex index, Division&& changed, const std::string& place);
    /// Whether the pool has no results; a finding otherwise.
    bool unplayed(DivisionIndex index, PoolIndex pool);

    TournamentState& state_;
    FactNumber number_;
};

}  // namespace courthand::event
