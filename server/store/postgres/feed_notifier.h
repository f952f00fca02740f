// Tells other servers that a feed has grown: NOTIFY from a thread and a connection of its own, so
// that no commit waits for it. NOTIFY takes a lock that all committing servers share.
#pragma once

#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <set>
#include <thread>

#include "server/domain/ids.h"
#include "server/store/postgres/database.h"

namespace courthand::server::postgres {

class FeedNotifier {
  public:
    /// Commits within this time are told as one.
    static constexpr std::chrono::milliseconds tells_every{20};

    /// `database` must outlive it. Connects when first needed.
    explicit FeedNotifier(Database& database);
    ~FeedNotifier();
    FeedNotifier(const FeedNotifier&) = delete;
    FeedNotifier& operator=(const FeedNotifier&) = delete;

    /// Does not block. A word that is lost costs the others their next regular look at the feed.
    void announce(TournamentId tournament);

  private:
    void run();
    void tell(const std::set<TournamentId>& grown);

    Database& database_;
    std::shared_ptr<pqxx::connection> connection_;  ///< of the thread alone
    std::mutex mutex_;
    std::condition_variable wake_;
    std::set<TournamentId> grown_;
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::postgres
