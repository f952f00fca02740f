// One course of a day while it is played: which courts, teams and workers are free from when.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "courthand/forecast/day.h"
#include "courthand/forecast/day_forecast.h"

namespace courthand::forecast {

/// From when a match can begin to warm up, and why not earlier.
struct Ready {
    static constexpr MatchIndex nobody = 0xFFFF;
    Minute at = -std::numeric_limits<Minute>::infinity();
    Cause cause = Cause::nothing;
    MatchIndex by = nobody;
};

class World {
  public:
    /// The day must be without faults, and outlive its courses.
    explicit World(const Day& day);

    /// `lot` decides between level teams of pools.
    void draw(std::uint64_t lot) noexcept;
    /// After what has been played so far; infinite where it waits for a match that has not been.
    [[nodiscard]] Ready ready(MatchIndex match);
    void play(MatchIndex match, Minute end, Winner winner);

  private:
    static constexpr Minute never = std::numeric_limits<Minute>::infinity();

    /// Teams come first, crews after them.
    using Person = std::uint16_t;
    static constexpr Person unknown = 0xFFFF;

    struct Busy {
        Minute played = -never;  ///< end of the last match
        Minute worked = -never;  ///< end of the last duty
        MatchIndex played_in = Ready::nobody;
        MatchIndex worked_in = Ready::nobody;
    };
    struct Ended {
        Minute at = never;
        Person winner = unknown;
        Person loser = unknown;
    };
    class Bound;

    [[nodiscard]] Person who(const Entrant& entrant);
    [[nodiscard]] Person at_place(PoolIndex pool, std::uint16_t place);
    void order_pool(PoolIndex pool);
    void count_source(const Entrant& entrant, bool plays, Bound& bound) const;
    void count_person(const Entrant& entrant, bool plays, double rest, Bound& bound);

    const Day* day_;
    std::vector<std::uint16_t> courts_;  ///< by match
    std::vector<MatchIndex> last_;       ///< by court, the match played there last
    std::vector<Busy> busy_;             ///< by person
    std::vector<Ended> ended_;           ///< by match
    std::vector<std::size_t> pool_at_;   ///< by pool, where its places begin
    std::vector<Person> places_;         ///< unknown until asked for
    std::uint64_t lot_ = 0;
};

}  // namespace courthand::forecast
