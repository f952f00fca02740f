// Bringing the database up: schema, and the tournament this server serves.
#pragma once

#include "server/main/settings.h"
#include "server/main/stop_signal.h"
#include "server/store/match_store.h"
#include "server/store/postgres/database.h"

namespace courthand::server {

/// Migrates, and finds the tournament or makes the first one.
[[nodiscard]] Result<Tournament> open_tournament(postgres::Database& database, MatchStore& store,
                                                 const std::string& name_of_first);

/// The same, but waits for a database that is not there: says so, tries again with growing pauses.
/// `unavailable` only when the program was asked to stop meanwhile.
[[nodiscard]] Result<Tournament> wait_for_tournament(postgres::Database& database,
                                                     MatchStore& store,
                                                     const std::string& name_of_first,
                                                     StopSignal& stop);

/// Pauses between two tries: grows from the first to the last, so that a database that comes up is
/// found at once and one that is away for an hour is not bothered.
class Backoff {
  public:
    [[nodiscard]] std::chrono::milliseconds next() {
        const auto pause = pause_;
        pause_ = std::min(pause_ * 2, last);
        return pause;
    }

  private:
    static constexpr std::chrono::milliseconds first{200};
    static constexpr std::chrono::milliseconds last{3000};
    std::chrono::milliseconds pause_ = first;
};

}  // namespace courthand::server
