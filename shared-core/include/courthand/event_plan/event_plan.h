// Between the record of a tournament and the planner: what is to be planned, and a plan as facts.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/plan/plan.h"

namespace courthand::event_plan {

/// When the clock would show `at`, it shows `at` plus `shift` instead: an hour back to winter time
/// is 02:00 and -60.
struct ClockChange {
    event::LocalTime at;
    std::int32_t shift = 0;  ///< minutes
    friend bool operator==(const ClockChange&, const ClockChange&) = default;
};

/// What a division wants beside what the record says of it.
struct DivisionWish {
    event::LocalTime not_before;      ///< its first match; none: any time
    event::LocalTime pools_over;      ///< its pools are over then; none: any time
    event::LocalTime brackets_after;  ///< its other matches begin then or later; none: any time
    /// Of each day, minutes after its midnight: no match ends later, for the age of the players. 0:
    /// none.
    std::int32_t latest_finish = 0;
    std::vector<std::string> needs;  ///< features of courts
};

struct Demands {
    plan::Minute step = 5;
    plan::Minute fair_wait = 120;
    plan::Weights weights{};
    std::map<event::DivisionIndex, DivisionWish> divisions;
    std::map<std::uint16_t, std::vector<event::DivisionIndex>> courts_kept;  ///< by court
    /// Teams that have one person in common who must be at each match: a coach of two teams.
    std::vector<std::vector<event::TeamIndex>> shared_people;
    std::vector<event::MatchRef> in_play;    ///< begun, without a result yet
    std::vector<ClockChange> clock_changes;  ///< in the order of time
};

/// A task with the way back.
struct EventTask {
    plan::PlanTask task;
    std::vector<event::MatchRef> matches;  ///< by match of the task
    std::vector<std::uint16_t> courts;     ///< their numbers, by court of the task
    event::LocalTime origin;               ///< minute 0: a midnight
};

/// All matches that are played, with those that are over where they had a place. Left out are
/// matches against a bye. A court without hours has no room. Persons who work and play or coach are
/// at both.
[[nodiscard]] EventTask task_of(const event::TournamentState& state, const Demands& demands);

/// Minutes that really pass, and what the clock shows then. Of a time that it shows twice, the
/// first.
[[nodiscard]] plan::Minute minute_of(const EventTask& task, event::LocalTime time);
[[nodiscard]] event::LocalTime time_of(const EventTask& task, plan::Minute minute);

/// The facts that bring the record from its places to those of the plan, in the order of the task:
/// placed, moved, or without a place. What has begun and what stays where it is says nothing.
[[nodiscard]] std::vector<event::Fact> facts_of(const event::TournamentState& state,
                                                const EventTask& task, const plan::Plan& plan);

}  // namespace courthand::event_plan
