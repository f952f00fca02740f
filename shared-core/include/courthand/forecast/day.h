// A day of play as the forecast sees it: courts with their order of matches, who plays and works
// them, and how far they have come. Plain values; whoever has the plan and the scores fills them.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/forecast/match_course.h"
#include "courthand/forecast/pace.h"
#include "courthand/forecast/punctuality.h"
#include "courthand/forecast/strength.h"
#include "courthand/tournament/fault.h"

namespace courthand::forecast {

using tournament::Fault;
using tournament::Faults;

/// Minutes since a moment that the caller chooses, the same for all times of a day.
using Minute = double;

using MatchIndex = std::uint16_t;  ///< into `Day::matches`
using KindIndex = std::uint16_t;   ///< into `Day::kinds`
using PoolIndex = std::uint16_t;   ///< into `Day::pools`

/// What the matches of a division have in common. In minutes where nothing else is said.
struct Kind {
    MatchFormat format{};
    StrengthPrior strength{};
    PacePrior pace{};
    double interval = 3;  ///< between two sets; FIVB Official Volleyball Rules 2021-2024, rule 18.1
    double warm_up = 10;  ///< from when court, teams and workers are there to the first service
    double rest = 20;     ///< of a team, from its last rally to its next warm-up; judgement
};

/// Who plays or works a match.
struct Entrant {
    enum class Kind : std::uint8_t {
        team,    ///< `of`: its number, from 0
        crew,    ///< `of`: its number, from 0; works, never plays
        winner,  ///< of the match `of`
        loser,
        place,  ///< the team at `place` (from 1) of the pool `of`
    };
    Kind kind = Kind::team;
    std::uint16_t of = 0;
    std::uint16_t place = 0;
    friend constexpr bool operator==(const Entrant&, const Entrant&) = default;
};

struct Waiting {};

struct Live {
    Minute began = 0;  ///< first service
    MatchNow score{};
    PerTeam<int> rallies_won{};  ///< in all sets
    Played played{};
    double interval_left = 0;  ///< of the interval that runs now, in minutes
};

struct Over {
    Minute began = 0;
    Minute ended = 0;
    Winner winner = Winner::nobody;
    Played played{};
};

struct DayMatch {
    std::string name;  ///< for messages
    KindIndex kind = 0;
    std::optional<MatchFormat> format{};  ///< where it is another than that of its kind
    std::array<Entrant, 2> sides{};
    std::vector<Entrant> workers;  ///< who must be free; mostly one team or one crew
    Minute planned = 0;            ///< first service
    bool may_start_early = false;  ///< as soon as all is there; otherwise not before `planned`
    std::variant<Waiting, Live, Over> state;
};

/// A pool whose places others wait for. By matches won, level ones by lot: which of level teams
/// comes first changes no length.
struct Pool {
    std::vector<std::uint16_t> teams;  ///< their numbers
    std::vector<MatchIndex> matches;
};

struct Day {
    Minute now = 0;
    std::uint16_t teams = 0;
    std::uint16_t crews = 0;
    std::vector<Kind> kinds;
    std::vector<Pool> pools;
    std::vector<DayMatch> matches;
    std::vector<std::vector<MatchIndex>> courts;  ///< the order of play of each
    PunctualityPrior punctuality{};
};

/// In which format a match is played.
[[nodiscard]] inline const MatchFormat& format_of(const Day& day, MatchIndex match) {
    const DayMatch& of = day.matches[match];
    return of.format ? *of.format : day.kinds[of.kind].format;
}

/// Whether a match has not begun.
[[nodiscard]] inline bool waits(const Day& day, MatchIndex match) {
    return std::holds_alternative<Waiting>(day.matches[match].state);
}

inline constexpr std::size_t most_courts = 128;     ///< four times a large venue
inline constexpr std::size_t most_matches = 4096;   ///< as many as a match graph holds
inline constexpr std::size_t most_kinds = 32;       ///< as many as a tournament has divisions
inline constexpr std::size_t most_entrants = 1024;  ///< 512 teams, 512 crews
inline constexpr std::size_t most_workers = 8;      ///< of one match
inline constexpr int most_points = 999;  ///< of a team in a set: what a sheet has room for

/// What is wrong with a day: indices that lead nowhere, a match on no court or on two, a score that
/// no match under way has, numbers that are none, an order that goes in a circle. A day without
/// faults can be forecast.
[[nodiscard]] Faults faults_of(const Day& day);

/// The matches that are not over, so that each comes after all that it waits for: the match before
/// it on its court, those its sides and workers come from, and those planned earlier for its teams
/// and crews; these last give way where all together would go in a circle. Nothing when matches
/// wait for each other all the same.
[[nodiscard]] std::optional<std::vector<MatchIndex>> order_of_waiting(const Day& day);

}  // namespace courthand::forecast
