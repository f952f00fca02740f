// Who comes where, in words: sources, why one is open, final places, and what waits for a person.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::event {

/// "Mill Lane", "winner of M7", "2nd of pool A".
[[nodiscard]] std::string source_words(const TournamentState& state, DivisionIndex division,
                                       SourceIndex source);

/// Why a source stands for nobody yet: "M3 has no confirmed result"; empty when it is settled.
[[nodiscard]] std::string why_open(const TournamentState& state, DivisionIndex division,
                                   SourceIndex source);

/// The confirmed results of a division as the match graph takes them.
[[nodiscard]] tournament::Outcomes outcomes(const TournamentState& state, DivisionIndex division);

/// A team that has ended, in the places `first` to `last` of its division.
struct Ended {
    std::uint16_t first = 0;
    std::uint16_t last = 0;
    TeamIndex team = no_team;
    friend bool operator==(const Ended&, const Ended&) = default;
};
[[nodiscard]] std::vector<Ended> final_places(const TournamentState& state, DivisionIndex division);

/// What the record as a whole leaves for a person to put right: results whose sides are other teams
/// now, pools that need a decision or cannot be put in order, matches after which nobody goes on.
[[nodiscard]] std::vector<tournament::Fault> waiting(const TournamentState& state);
/// Of this, what is of one division.
[[nodiscard]] std::vector<tournament::Fault> waiting(const TournamentState& state,
                                                     DivisionIndex division);

/// A match whose place differs from the plan as it was published, be it by taking back what was
/// said before.
struct PlanChange {
    std::string match;
    std::optional<Placement> was;
    std::optional<Placement> is;
    /// The last fact since then that placed it, moved it or took it off, or that took such a fact
    /// back; beside it stands the reason. 0: the match itself is another, or is no more.
    FactNumber fact = 0;
    friend bool operator==(const PlanChange&, const PlanChange&) = default;
};
[[nodiscard]] std::vector<PlanChange> changes_since_published(const TournamentState& state);

}  // namespace courthand::event
