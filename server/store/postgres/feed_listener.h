// Hears what other servers commit: LISTEN on a connection and a thread of its own.
#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <thread>

#include "server/domain/ids.h"
#include "server/store/postgres/database.h"

namespace courthand::server::postgres {

/// Channel of NOTIFY; the payload is the tournament's id.
inline constexpr const char* feed_channel = "courthand_feed";

class FeedListener {
  public:
    /// `heard` is called with a tournament, or with the nil id when the connection was renewed and
    /// anything may have been missed.
    FeedListener(Database& database, std::function<void(TournamentId)> heard);
    ~FeedListener();

  private:
    void run();
    void listen_on(pqxx::connection& connection);
    void pause();

    Database& database_;
    std::function<void(TournamentId)> heard_;
    std::atomic<bool> stop_{false};
    std::thread thread_;
};

}  // namespace courthand::server::postgres
