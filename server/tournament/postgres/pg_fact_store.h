// Records of tournaments in PostgreSQL. Thread-safe.
#pragma once

#include "server/store/postgres/database.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

class PgFactStore : public FactStore {
  public:
    /// Both outlive the store. `database` is that of `feed`, which hears of each change and tells
    /// the other servers.
    PgFactStore(postgres::Database& database, postgres::PgMatchStore& feed);

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
    postgres::Database& database_;
    postgres::PgMatchStore& feed_;
};

}  // namespace courthand::server::tournament
