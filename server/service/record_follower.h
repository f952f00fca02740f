// Brings the keeper of the tournament's record what the feed tells of it: what other servers of the
// venue have kept or erased, and that the database was put back.
#pragma once

#include <mutex>
#include <span>

#include "server/domain/work_queue.h"
#include "server/feed/hub.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::service {

/// Reads on the work queue, one job at a time. What fails is tried again with the next second.
class RecordFollower {
  public:
    /// All of it outlives this, but for the queue: that ends before, and its jobs with it.
    struct Parts {
        tournament::RecordKeeper& record;
        Hub& hub;
        WorkQueue& work;
    };
    explicit RecordFollower(Parts parts) : parts_{parts} {}
    ~RecordFollower() { stop(); }
    RecordFollower(const RecordFollower&) = delete;
    RecordFollower& operator=(const RecordFollower&) = delete;

    /// Reads the record as it is stored, then follows. Waits for the database; on failure it may be
    /// called again. A fact that cannot be read is one line of the log: the venue goes on, and the
    /// record up to that fact.
    [[nodiscard]] Status start();
    /// No further job begins.
    void stop();

  private:
    void wake(Hub::Wake why);
    void look();
    [[nodiscard]] bool look_once();
    [[nodiscard]] Status take_news();
    // These fail with what may pass by itself.
    [[nodiscard]] Status take_items(std::span<const FeedItem> items);
    [[nodiscard]] Status begin_anew();
    /// Logs it when it is another one than before.
    [[nodiscard]] bool worth_another_try(const Status& status);

    Parts parts_;
    Hub::Token token_ = 0;

    std::mutex mutex_;
    bool looking_ = false;  ///< guarded by mutex_; a job is under way or waits
    bool again_ = false;    ///< guarded by mutex_; there was news meanwhile
    bool failed_ = false;   ///< guarded by mutex_; the next tick tries again

    // Of the one job, or of `start` before there is any.
    Hub::Era era_ = 0;
    FeedPosition position_ = 0;
    StatusCode said_ = StatusCode::ok;
};

}  // namespace courthand::server::service
