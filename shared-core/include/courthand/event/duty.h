// Who works a match, and what speaks against it. Nothing here forbids: a desk that is short of
// people may do it all the same, and is told first.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/event/interest.h"
#include "courthand/event/state.h"

namespace courthand::event {

/// The team that supplies the table: as the desk has given it, else by the pool's order of play.
[[nodiscard]] std::optional<SourceIndex> workers_of(const TournamentState& state, MatchRef match);

/// Whom the duty names: the referees, then the persons of the crew. Somebody may be there twice.
[[nodiscard]] std::vector<std::uint16_t> persons_of(const TournamentState& state, const Duty& duty);

/// What speaks against a duty.
struct Clash {
    enum class Kind : std::uint8_t {
        plays_it,    ///< the work team, or the team of the person, is a side of the match
        interest,    ///< the person has a conflict of interest with a side
        plays_then,  ///< … plays another match at this time
        works_then,  ///< … works another match at this time
        named_twice,
        left,  ///< the work team has left the event
    };
    Kind kind = Kind::plays_it;
    std::uint16_t person = 0;              ///< 0: it is about the work team
    TeamIndex team = no_team;              ///< that plays, works, has left, or is of interest
    std::optional<Interest::Kind> reason;  ///< of `interest`
    std::optional<MatchRef> other;         ///< of `plays_then` and `works_then`
    friend bool operator==(const Clash&, const Clash&) = default;
};

/// Clashes of the duty that a match has. Two matches are at one time when one begins before the
/// other is over by the plan (court_time.h). Of a match without a time nothing is said about
/// others.
[[nodiscard]] std::vector<Clash> clashes(const TournamentState& state, MatchRef match);

/// The same of every match that has no result yet, in the order of divisions and matches.
struct MatchClash {
    MatchRef match;
    Clash clash;
    friend bool operator==(const MatchClash&, const MatchClash&) = default;
};
[[nodiscard]] std::vector<MatchClash> clashes(const TournamentState& state);

/// What is told of whoever it is about, a person or the work team: "plays A2 at this time".
[[nodiscard]] std::string objection_words(const TournamentState& state, const Clash& clash);

/// "Mill Lane plays A2 at this time", "person 7 has a conflict of interest with Quayside".
[[nodiscard]] std::string in_words(const TournamentState& state, const Clash& clash);

}  // namespace courthand::event
