// The twin of the PostgreSQL store that keeps nothing: for tests, and for a venue in one process.
// Thread-safe.
#pragma once

#include <map>
#include <mutex>
#include <optional>

#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

class MemoryFactStore : public FactStore {
  public:
    /// The feed that hears of each append, and knows which tournaments there are; it outlives this.
    explicit MemoryFactStore(MatchStore& feed) : feed_{feed} {}

    Result<FactHead> head(TournamentId tournament) override;
    Result<std::vector<KeptFact>> read(TournamentId tournament, FactNumber after,
                                       std::size_t most) override;
    using FactStore::append;
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts,
                              std::span<const RecordEnd> rests_on) override;
    Result<std::size_t> erase_beside(TournamentId tournament,
                                     std::span<const FactNumber> facts) override;

  private:
    [[nodiscard]] Status known(TournamentId tournament);
    /// The match of the first of them that is an end no more. Here, an entry that comes right after
    /// the look and before the fact is not kept out: there is no transaction over both.
    [[nodiscard]] Result<std::optional<MatchId>> outwritten(TournamentId tournament,
                                                            std::span<const RecordEnd> ends);

    MatchStore& feed_;
    std::mutex mutex_;
    std::map<TournamentId, std::vector<KeptFact>> records_;
};

}  // namespace courthand::server::tournament
