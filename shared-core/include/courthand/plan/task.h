// What is to be planned: matches with those who must be there, courts with their hours, limits of
// rest and load, and wishes with their weights. Plain values; whoever has the event fills them.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "courthand/tournament/fault.h"

namespace courthand::plan {

using tournament::Fault;
using tournament::Faults;

/// Minutes that really pass, since a moment that the caller chooses; never below 0. The clock of
/// the hall may jump, these do not (`ClockPiece`).
using Minute = std::int32_t;

using MatchIndex = std::uint16_t;  ///< into `PlanTask::matches`
using CourtIndex = std::uint16_t;  ///< into `PlanTask::courts`
using PartyIndex = std::uint16_t;  ///< into `PlanTask::parties`
using GroupIndex = std::uint16_t;  ///< into `PlanTask::groups`
using PoolIndex = std::uint16_t;   ///< into `PlanTask::pools`
using DayIndex = std::uint16_t;    ///< of play, from 0; may end past midnight

inline constexpr Minute never = std::numeric_limits<Minute>::max() / 4;

/// A court and a beginning.
struct Place {
    CourtIndex court = 0;
    Minute start = 0;
    friend constexpr auto operator<=>(const Place&, const Place&) = default;
};

/// From `from` until before `until`.
struct Window {
    Minute from = 0;
    Minute until = 0;
    friend constexpr auto operator<=>(const Window&, const Window&) = default;
};

/// Somebody who cannot be at two matches at once.
struct Party {
    enum class Kind : std::uint8_t {
        team,
        expected,  ///< a team that is not known yet: "winner of M3"
        crew,
        person,
    };
    Kind kind = Kind::team;
    std::string name;
    /// Of an expected team: the matches out of which it comes; it rests after the last of them.
    std::vector<MatchIndex> from{};
    friend bool operator==(const Party&, const Party&) = default;
};

/// Matches under the same limits: a division. A limit of 0 is none.
struct Group {
    std::string name;
    Minute rest = 0;  ///< of a team, from the end of a match to its next
    /// Matches with less than `row_break` minutes between them are in a row.
    Minute row_break = 0;
    std::uint16_t most_in_a_row = 0;
    std::uint16_t most_a_day = 0;
    /// By day: no match ends later; missing or `never`: no limit. For the age of the players.
    std::vector<Minute> latest_finish{};
    friend bool operator==(const Group&, const Group&) = default;
};

struct TaskMatch {
    std::string name;
    GroupIndex group = 0;
    std::optional<PoolIndex> pool{};
    Minute duration = 0;  ///< that it holds its court
    std::array<PartyIndex, 2> sides{};
    std::vector<PartyIndex> workers{};  ///< teams, crews and officials who work it
    std::vector<PartyIndex> present{};  ///< who else must be there: the coach of two teams
    std::vector<PartyIndex> barred{};   ///< may not work it: conflicts of interest
    Minute earliest = 0;                ///< does not begin before
    Minute latest_end = never;          ///< does not end after
    std::vector<std::string> needs{};   ///< features of its court
    std::optional<Place> published{};   ///< what people were told
    std::optional<Place> pinned{};      ///< may not be moved from there
    /// Begun or over, where it is pinned: it stands as it is, others are planned around it.
    bool begun = false;
    friend bool operator==(const TaskMatch&, const TaskMatch&) = default;
};

struct Opening {
    Window hours{};
    DayIndex day = 0;
    friend bool operator==(const Opening&, const Opening&) = default;
};

struct TaskCourt {
    std::string name;
    std::vector<Opening> open{};  ///< in the order of time
    std::vector<std::string> features{};
    std::vector<GroupIndex> kept_for{};  ///< only these play here; empty: all may
    friend bool operator==(const TaskCourt&, const TaskCourt&) = default;
};

/// What is wished for and costs where it is not fulfilled.
enum class Wish : std::uint8_t {
    waiting,  ///< minutes that teams wait in the hall on a day: neither play nor work
    end,      ///< minutes from the opening of each day to its last whistle
    spread,   ///< minutes that a team waits on a day beyond `fair_wait`
    courts,   ///< matches of a pool that are not on the court where most of them are
    duties,   ///< matches a team works more often than the one of its division that works least
    told,     ///< teams, crews and officials who must be told that a published match moved
};
inline constexpr std::size_t wish_count = 6;

/// What a unit of each wish weighs, in minutes that one team waits. Judgement, and the desk's to
/// say: a later end keeps everybody in the hall; a court changed is a walk and a search.
struct Weights {
    std::array<std::int64_t, wish_count> of{1, 20, 1, 15, 0, 30};
    [[nodiscard]] std::int64_t operator[](Wish wish) const {
        return of[static_cast<std::size_t>(wish)];
    }
    friend bool operator==(const Weights&, const Weights&) = default;
};

/// From minute `from` on, until the next piece, the clock of the hall shows `shown` and counts on.
struct ClockPiece {
    Minute from = 0;
    std::int32_t shown = 0;  ///< minutes since midnight of the first day
    friend bool operator==(const ClockPiece&, const ClockPiece&) = default;
};

struct PlanTask {
    Minute step = 5;  ///< planned beginnings are multiples of it
    Minute now = 0;   ///< nothing that is not pinned begins before
    Minute fair_wait = 120;
    std::vector<TaskCourt> courts;
    std::vector<Group> groups;
    std::vector<std::string> pools;
    std::vector<Party> parties;
    std::vector<TaskMatch> matches;  ///< in the order of the desk's list
    /// Nothing begins here: the clock of the hall shows these minutes twice.
    std::vector<Window> no_start;
    std::vector<ClockPiece> clock;  ///< empty: it shows the minutes as they are
    Weights weights{};
    friend bool operator==(const PlanTask&, const PlanTask&) = default;
};

inline constexpr std::size_t most_matches = 4096;    ///< as many as a match graph holds
inline constexpr std::size_t most_courts = 128;      ///< four times a large venue
inline constexpr std::size_t most_groups = 32;       ///< as many as a tournament has divisions
inline constexpr std::size_t most_parties = 16'384;  ///< teams, both ends of each match, officials
inline constexpr std::size_t most_days = 14;         ///< two weeks
inline constexpr Minute longest_match = 720;         ///< half a day
inline constexpr Minute latest_minute = 30 * 24 * 60;  ///< a month: two weeks and what lies between
inline constexpr std::int64_t heaviest = 100;  ///< weight of a wish: sums stay within 31 bits

/// What no plan could cure, each with its place and the cure: no courts or hours, indices that lead
/// nowhere, a circle among matches, a team that works its own match or plays itself, a worker with
/// a conflict of interest, a length or step that cannot be. A task without faults can be planned;
/// whether everything fits is for the planner to find out.
[[nodiscard]] Faults faults_of(const PlanTask& task);

/// From the first opening to the last closing of each day.
[[nodiscard]] std::vector<Window> days_of(const PlanTask& task);

/// "10:05" as the clock in the hall shows it, "10:05 of day 2" where there are several days.
[[nodiscard]] std::string in_words(const PlanTask& task, Minute minute);

/// Matches so that each stands behind all that its sides and workers come from, otherwise in the
/// order of the list. A match that waits for itself is left out.
[[nodiscard]] std::vector<MatchIndex> in_order(const PlanTask& task);

}  // namespace courthand::plan
