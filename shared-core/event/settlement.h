// Who comes where in a division: keeps sources, winners and orders of pools settled while results
// come and go. Internal to shared-core/event.
//
// `tournament::settle` answers the same question for a whole graph at once; here a result reaches
// only what hangs on it. A test compares the two.
#pragma once

#include "courthand/event/state.h"

namespace courthand::event {

class Settlement {
  public:
    /// Teams are read from `state`; `division` may be a copy that is not part of it yet.
    Settlement(const TournamentState& state, Division& division)
        : state_{state}, division_{division} {}

    /// Takes in what was added to the graph since.
    void grow();
    /// A match has other sides, or its result, or whether it is played, has changed.
    void match(MatchIndex index);
    /// A pool has other results, decisions or withdrawals.
    void pool(PoolIndex index);
    /// The division has other seeds.
    void seeds();
    /// The sides of a match are no longer these.
    void leave(MatchIndex index);
    void join(MatchIndex index);

  private:
    void source(SourceIndex index);
    void enter_source(SourceIndex index);
    [[nodiscard]] Side evaluate(const tournament::Source& source) const;
    [[nodiscard]] Side compared(const tournament::Source& source) const;
    [[nodiscard]] tournament::Winner winner_of(MatchIndex index) const;
    [[nodiscard]] bool counts(MatchIndex index) const;
    [[nodiscard]] bool waited_for(MatchIndex index) const;

    const TournamentState& state_;
    Division& division_;
};

/// Who won, by the sets or the award; unknown when nobody did.
[[nodiscard]] tournament::Winner winner_of(const Result& result);

/// The result counts, and it is a default of both teams. A level score has no winner either, but it
/// is nobody's loss.
[[nodiscard]] bool lost_by_both(const MatchState& match);

/// Teams were entered, and none of them stays.
[[nodiscard]] bool all_have_left(const TournamentState& state, const Division& division);

/// The place of a team among the seeds of its division, from 0; those without a seed come after
/// all others in the order of entry.
[[nodiscard]] std::size_t seed_of(const Division& division, TeamIndex team);

}  // namespace courthand::event
