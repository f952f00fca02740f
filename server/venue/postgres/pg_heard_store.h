// When the devices of a venue were heard last, in PostgreSQL. Thread-safe.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/store/postgres/database.h"
#include "server/venue/heard_store.h"

namespace courthand::server::venue {

class PgHeardStore final : public HeardStore {
  public:
    using Clock = std::function<alerts::Now()>;

    /// `database` outlives the store and must not have been used yet.
    PgHeardStore(postgres::Database& database, TournamentId tournament,
                 Clock clock = alerts::system_now);

    Result<std::vector<HeardDevices::Heard>> exchange(
        const std::vector<HeardDevices::Heard>& untold) override;

  private:
    void keep(pqxx::work& work, const std::vector<HeardDevices::Heard>& untold,
              const alerts::Now& now) const;

    postgres::Database& database_;
    std::string tournament_;
    Clock clock_;
};

}  // namespace courthand::server::venue
