// When the devices of a venue were heard last, shared between its servers by a table.
//
// Ages travel, not moments: no two hosts need agree about the time, and a row ages on the
// database's clock. Thread-safe.
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <vector>

#include "server/domain/steady_clock.h"
#include "server/store/postgres/database.h"
#include "server/venue/heard_devices.h"

namespace courthand::server::venue {

class PgHeardStore {
  public:
    using Clock = std::function<alerts::Now()>;
    /// A device that nobody heard for so long is nobody's concern any more.
    static constexpr std::chrono::hours forgets{24};

    /// `database` outlives the store and must not have been used yet.
    PgHeardStore(postgres::Database& database, TournamentId tournament, Clock clock);

    /// Keeps what one server heard and answers the newest of all servers, on this server's clock:
    /// `HeardDevices::most` of them at most. Waits for no disk and no standby: what is lost in a
    /// crash is heard again.
    [[nodiscard]] Result<std::vector<HeardDevices::Heard>> exchange(
        const std::vector<HeardDevices::Heard>& untold);

  private:
    void keep(pqxx::work& work, const std::vector<HeardDevices::Heard>& untold,
              const alerts::Now& now) const;

    postgres::Database& database_;
    std::string tournament_;
    Clock clock_;
};

/// Tells the others in coarse steps what was heard here, and learns what they heard. Of one thread.
class HeardSharing {
  public:
    /// A device's row is rewritten no more often, and what another server heard is at most twice
    /// as old: little beside the minute after which a court counts as not seen.
    static constexpr std::chrono::seconds every{3};

    /// Both outlive it.
    HeardSharing(HeardDevices& devices, PgHeardStore& store, SteadyNow now = steady_now)
        : devices_{devices}, store_{store}, now_{std::move(now)} {}

    /// Does it when it is time. While the database is away nothing is lost.
    void look();

  private:
    HeardDevices& devices_;
    PgHeardStore& store_;
    SteadyNow now_;
    SteadyTime due_{};
};

}  // namespace courthand::server::venue
