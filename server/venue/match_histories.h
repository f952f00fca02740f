// What the alerts need to know of the past of each match, whether its record is in memory or
// rests. Of the fold thread alone.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "server/alerts/match_history.h"
#include "server/domain/match_observer.h"
#include "server/venue/match_view.h"

namespace courthand::server::venue {

class MatchHistories {
  public:
    /// What the board shows of the match, and what holds in it, by its history to the last entry.
    /// `afresh`: what is known of its past is void.
    [[nodiscard]] MatchView view(const LiveMatch& match, bool afresh);
    /// From the snapshot of a match that rests.
    void restore(MatchId match, std::string_view part) { resting_[match] = part; }
    /// What `restore` takes back; empty when nothing is known.
    [[nodiscard]] std::string part(MatchId match) const;
    void rest(MatchId match);
    void clear();

  private:
    [[nodiscard]] const alerts::MatchHistory& followed(const LiveMatch& match, bool afresh);

    std::map<MatchId, alerts::MatchHistory> histories_;
    std::map<MatchId, std::string> resting_;  ///< as `history_part` has them
};

}  // namespace courthand::server::venue
