// The matches of the venue as the board shows them, by court. Not thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <set>

#include "server/venue/match_view.h"

namespace courthand::server::venue {

class MatchShelf {
  public:
    /// Takes a match in, or in the place of what was known of it. Answers the court it was on
    /// before; 0: it was on none or not known.
    std::uint32_t put(MatchView view);
    void remove(MatchId match);

    [[nodiscard]] MatchView* find(MatchId match);
    [[nodiscard]] const MatchView* find(MatchId match) const;
    /// The match that is on the court now; null when there is none.
    [[nodiscard]] const MatchView* current(std::uint32_t court) const;
    [[nodiscard]] bool has_court(std::uint32_t court) const { return courts_.contains(court); }
    [[nodiscard]] const std::map<std::uint32_t, std::set<MatchId>>& courts() const noexcept {
        return courts_;
    }
    [[nodiscard]] std::size_t size() const noexcept { return matches_.size(); }

  private:
    void leave_court(std::uint32_t court, MatchId match);

    std::map<MatchId, MatchView> matches_;
    std::map<std::uint32_t, std::set<MatchId>> courts_;  ///< of each court its matches
};

}  // namespace courthand::server::venue
