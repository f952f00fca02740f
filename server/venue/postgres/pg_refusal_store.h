// Refused entries of all servers of a venue, in PostgreSQL. Thread-safe.
#pragma once

#include <string>
#include <vector>

#include "server/store/postgres/database.h"
#include "server/venue/refusal_store.h"

namespace courthand::server::venue {

class PgRefusalStore final : public RefusalStore {
  public:
    /// `database` outlives the store and must not have been used yet.
    PgRefusalStore(postgres::Database& database, TournamentId tournament);

    Result<std::vector<Refusals::Refusal>> exchange(const Refusals::Changes& changes) override;

  private:
    postgres::Database& database_;
    std::string tournament_;
};

}  // namespace courthand::server::venue
