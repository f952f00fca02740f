// A day of play that is not made as forecasts are: what is forecast of it can be compared with what
// came.
//
// Eight pools of four on a court each, worked by their own teams, and a knock-out of the first and
// one of the second of each pool after them, worked by crews. Rally by rally: teams of unlike
// strength, who serves matters, rallies of unlike length, time-outs, injuries, crews that come
// late; each day has a pace and manners of its own.
#pragma once

#include <cstdint>
#include <vector>

#include "courthand/forecast/day.h"

namespace courthand::forecast {

/// One rally that was played.
struct PlayedRally {
    Team winner = Team::A;
    Minute ended = 0;
};

/// What came of a match.
struct TrueMatch {
    Minute began = 0;
    Minute ended = 0;
    Winner winner = Winner::nobody;
    std::vector<PlayedRally> rallies;
    Team served_first = Team::A;
};

struct SimulatedDay {
    Day plan;  ///< nothing has begun
    std::vector<TrueMatch> matches;
    std::vector<Minute> planned_end;
    double pace = 0;  ///< seconds of an ordinary rally on that day

    /// The day as a desk saw it at this minute.
    [[nodiscard]] Day seen_at(Minute now) const;
};

/// First service of the first matches, in minutes of the clock.
inline constexpr Minute day_begins = 540;
/// Between two matches that are planned on a court: an hour for the match, ten minutes to warm up.
/// Some minutes too few on an ordinary day, as slots are; handbook arithmetic: 65.8 minutes in
/// slots of 60, memory.
inline constexpr Minute planned_slot = 70;

/// How the day differs from the model. Each number is a judgement about halls.
struct Habits {
    double pace = 32.5;         ///< seconds of a rally, over all days
    double pace_of_days = 3.2;  ///< half of the days lie further off than two thirds of it
    double strength = .035;     ///< deviation of a team; p of a match deviates by 1.4 times that
    double serve = .05;         ///< the serving team wins so much less of its rallies
    double time_out = .045;     ///< rallies that are followed by one, 40 seconds
    double injury = .0006;      ///< rallies that are followed by one, six minutes on average
    double late_crew = .12;     ///< starts that wait for one, eight minutes on average
};

[[nodiscard]] SimulatedDay simulated_day(std::uint64_t seed, const Habits& habits);

}  // namespace courthand::forecast
