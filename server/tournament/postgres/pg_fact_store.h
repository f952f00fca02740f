// Records of tournaments in PostgreSQL. Thread-safe.
#pragma once

#include "server/store/postgres/database.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

class PgFactStore : public FactStore {
  public:
    /// `database` outlives the store, must not have been used yet, and carries the statements of a
    /// PgMatchStore, whose feed hears of each append.
    explicit PgFactStore(postgres::Database& database);

    Result<FactHead> head(TournamentId tournament) override;
    Result<std::vector<KeptFact>> read(TournamentId tournament, FactNumber after,
                                       std::size_t most) override;
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts) override;
    Result<std::size_t> erase_beside(TournamentId tournament,
                                     std::span<const FactNumber> facts) override;

  private:
    postgres::Database& database_;
};

}  // namespace courthand::server::tournament
