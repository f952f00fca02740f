// How far the event is from its end: the final places, who holds each and why, what is not decided
// yet, and whether a division and the event as a whole are over.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

/// Whether the record waits for a result of the match: none counts, and it is to be played. A bye,
/// a second final that is not needed, a match of a pool against a team that has left, and a match
/// of a division that all teams have left are not.
[[nodiscard]] bool waits_for_result(const TournamentState& state, MatchRef match);

/// A place from which nobody goes on.
struct PlaceHeld {
    enum class State : std::uint8_t {
        open,    ///< not decided yet
        held,    ///< by `team`
        nobody,  ///< both teams lost the match that gives it, or it would go to a bye, or to teams
                 ///< of a division that all have left
    };
    std::uint16_t first = 0;  ///< of the division, or of `pool`
    std::uint16_t last = 0;   ///< the same, unless the place is shared
    std::optional<PoolIndex> pool;
    std::optional<SourceIndex> source;  ///< of a place that a bracket gives
    State state = State::open;
    TeamIndex team = no_team;
    friend bool operator==(const PlaceHeld&, const PlaceHeld&) = default;
};

/// The places of a division: those of its brackets, best first, then those of its pools from which
/// nobody goes on. With one pool and no bracket the places of the pool are those of the division.
[[nodiscard]] std::vector<PlaceHeld> places_held(const TournamentState& state,
                                                 DivisionIndex division);

/// Why the team holds the place: its way from there back to where it began, a sentence for each
/// match, then the reasons of its pool. Of an open place, what it waits for.
[[nodiscard]] std::vector<std::string> why_held(const TournamentState& state,
                                                DivisionIndex division, const PlaceHeld& place);

struct DivisionEnd {
    std::size_t matches = 0;                   ///< that are to be played, or were
    std::vector<MatchIndex> open;              ///< of these, the ones without a result that counts
    std::vector<tournament::Fault> undecided;  ///< what a person has yet to put right
    std::vector<PlaceHeld> places;
    std::vector<TeamIndex> left;  ///< teams that have left and hold no place
    std::size_t placeless = 0;    ///< teams that stay and hold no place

    /// Every match is confirmed, and the places stand.
    [[nodiscard]] bool over() const noexcept;
};
[[nodiscard]] DivisionEnd division_end(const TournamentState& state, DivisionIndex division);

/// Every division in which teams are entered is over, and there is one.
[[nodiscard]] bool event_over(const TournamentState& state);

}  // namespace courthand::event
