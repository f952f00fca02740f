// What an event came to, by names: its draws as drawn, the places of its pools, its final places.
// Each can be had again from the facts alone, so that whoever holds them can check it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

struct DrawnPool {
    std::string pool;
    std::vector<std::string> teams;  ///< in the order of the draw
    friend bool operator==(const DrawnPool&, const DrawnPool&) = default;
};

/// The pools of a division as the draw gave them, before anybody moved a team.
struct Drawn {
    std::string division;
    FactNumber fact = 0;  ///< that made the draw
    std::vector<DrawnPool> pools;
    friend bool operator==(const Drawn&, const Drawn&) = default;
};

struct PoolPlace {
    std::uint16_t place = 0;         ///< from 1; the first of as many places as there are teams
    std::vector<std::string> teams;  ///< several: they need a decision
    friend bool operator==(const PoolPlace&, const PoolPlace&) = default;
};

/// The order of a pool as of now. No places: it cannot be put in order.
struct PoolPlaces {
    std::string division;
    std::string pool;
    std::vector<PoolPlace> places;
    std::vector<std::string> withdrawn;
    friend bool operator==(const PoolPlaces&, const PoolPlaces&) = default;
};

struct TeamPlace {
    std::uint16_t first = 0;  ///< the team ended in one of the places `first` to `last`
    std::uint16_t last = 0;
    std::string team;
    friend bool operator==(const TeamPlace&, const TeamPlace&) = default;
};

struct FinalPlaces {
    std::string division;
    std::vector<TeamPlace> places;  ///< best first
    friend bool operator==(const FinalPlaces&, const FinalPlaces&) = default;
};

struct Summary {
    std::vector<Drawn> draws;         ///< of each division that has one
    std::vector<PoolPlaces> pools;    ///< of every pool
    std::vector<FinalPlaces> finals;  ///< of each division in which somebody has ended
    friend bool operator==(const Summary&, const Summary&) = default;
};

/// Makes each draw again from what was known when it was made: seeds, method and seed number.
[[nodiscard]] Summary summary(const TournamentState& state);

}  // namespace courthand::event
