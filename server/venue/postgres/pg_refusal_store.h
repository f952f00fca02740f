// Refused entries of all servers of a venue, in PostgreSQL. Thread-safe.
#pragma once

#include <vector>

#include "server/domain/refusals.h"
#include "server/store/postgres/database.h"

namespace courthand::server::venue {

class PgRefusalStore {
  public:
    /// `database` outlives the store and must not have been used yet.
    PgRefusalStore(postgres::Database& database, TournamentId tournament);

    /// Keeps the changes of one server, forgets what stands in a record by now, whichever way it
    /// came there, and what is of a withdrawn device, and answers what is left of all servers. A
    /// device keeps the newest `Refusals::most_of_a_device`, all together `Refusals::most`.
    [[nodiscard]] Result<std::vector<Refusals::Refusal>> exchange(const Refusals::Changes& changes);

  private:
    postgres::Database& database_;
    std::string tournament_;
};

/// Tells the others what was refused here and learns what they refused. While the database is away
/// nothing is lost.
[[nodiscard]] Status share(Refusals& refusals, PgRefusalStore& store);

}  // namespace courthand::server::venue
