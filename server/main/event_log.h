// Writes what happens to matches into the log: one line for each change worth a person's look.
#pragma once

#include <set>

#include "server/domain/match_observer.h"

namespace courthand::server {

class EventLog final : public MatchObserver {
  public:
    void on_match_changed(const MatchChanged& change) override;
    void on_branch_stored(const BranchStored& stored) override;
    void on_begun_anew() override;
    void on_rebuilt() override;

  private:
    std::set<MatchId> not_judged_;  ///< said once for each match
    bool rebuilt_ = false;
    std::size_t matches_ = 0;
    std::size_t entries_ = 0;
    std::size_t from_snapshots_ = 0;
};

}  // namespace courthand::server
