// Matches that rest and are about to go on: their records are read and folded before their next
// entry is appended, by whoever brings that entry, so that no court waits on the fold thread while
// the record of another is read. Thread-safe.
#pragma once

#include <deque>
#include <memory>
#include <mutex>
#include <optional>

#include "server/domain/match_keeper.h"
#include "server/store/match_store.h"

namespace courthand::server {

class Waking {
  public:
    /// Records that wait for their entry, some 2 MiB each at most; the oldest is let go.
    static constexpr std::size_t most_ready = 16;

    Waking(MatchStore& store, const MatchKeeper& keeper) : store_{store}, keeper_{keeper} {}

    /// The match has a record that is in the store only, and nobody has prepared it up to its
    /// present end. From memory.
    [[nodiscard]] bool wanted(MatchId match) const;
    /// Reads and folds it. Waits for the store; not for the fold thread. When it fails, the fold
    /// thread reads by itself.
    void prepare(MatchId match);
    /// What was prepared and ends at this very entry; null when nothing was.
    [[nodiscard]] std::unique_ptr<FoldedMatch> take(MatchId match, const MatchHead& end);

  private:
    /// The match with its plan and head, when its record is in the store only.
    [[nodiscard]] std::optional<StoredMatch> resting(MatchId match) const;
    void let_go(MatchId match);
    [[nodiscard]] std::unique_ptr<FoldedMatch> remove(MatchId match);

    MatchStore& store_;
    const MatchKeeper& keeper_;
    mutable std::mutex mutex_;
    std::deque<std::unique_ptr<FoldedMatch>> ready_;  ///< oldest first
};

}  // namespace courthand::server
