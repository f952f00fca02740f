// The twin of the PostgreSQL store that keeps nothing: for tests, and for a venue in one process.
// Thread-safe.
#pragma once

#include <map>
#include <mutex>

#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

class MemoryFactStore : public FactStore {
  public:
    /// The feed that hears of each append, and knows which tournaments there are; it outlives this.
    explicit MemoryFactStore(MatchStore& feed) : feed_{feed} {}

    Result<FactHead> head(TournamentId tournament) override;
    Result<std::vector<KeptFact>> read(TournamentId tournament, FactNumber after,
                                       std::size_t most) override;
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts) override;
    Result<std::size_t> erase_beside(TournamentId tournament,
                                     std::span<const FactNumber> facts) override;

  private:
    [[nodiscard]] Status known(TournamentId tournament);

    MatchStore& feed_;
    std::mutex mutex_;
    std::map<TournamentId, std::vector<KeptFact>> records_;
};

}  // namespace courthand::server::tournament
