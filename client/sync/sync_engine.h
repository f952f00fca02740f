// Keeps a device and the server in step: hands waiting entries over, takes matches and rulings in.
//
// One thread of its own. Every public call may come from any thread and none waits for the network,
// except `stop`, which waits for the engine's thread. It knows no gRPC, so that its locking can be
// checked under the thread sanitizer. Nothing is sent that is not in the journal first, and an
// entry waits in the journal until the server has said that it has it; so a cut at any moment,
// of the network or of the power, only means that something is sent twice.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/device.h"
#include "client/session/match_session.h"
#include "client/session/stored_sheet.h"
#include "client/sync/back_off.h"
#include "client/sync/courier.h"

namespace courthand::client {

/// Setting that names the match now on this device's court.
inline constexpr const char* court_match_setting = "court/match";
/// Setting that names the matches after it, in order, with commas between.
inline constexpr const char* court_following_setting = "court/following";
/// Setting with the cursor of the watch.
inline constexpr const char* watch_cursor_setting = "watch/cursor";

class SyncEngine {
  public:
    /// Steps of the watch that may wait to be stored; more, and the watch begins again.
    static constexpr std::size_t most_waiting_steps = 1000;
    /// Matches after the present one that a table keeps ready.
    static constexpr int most_kept_ahead = 4;

    struct Options {
        BackOff::Bounds back_off{};
        /// How often to look at everything even when nothing calls for it.
        std::chrono::milliseconds look_again{15000};
        std::uint64_t seed = 1;
    };

    SyncEngine(Journal& journal, Courier& courier, Device device, Options options);
    SyncEngine(Journal& journal, Courier& courier, Device device);
    ~SyncEngine();
    SyncEngine(const SyncEngine&) = delete;
    SyncEngine& operator=(const SyncEngine&) = delete;

    /// `changed` is called on the engine's thread when status, match or rulings may have changed.
    void start(std::function<void()> changed = {});
    void stop();

    /// There is a new entry.
    void wake();
    /// Ask which match is on the court now.
    void look_at_court();
    [[nodiscard]] SyncStatus status(const std::string& match_id) const;
    /// The match on this device's court as last heard; empty: none.
    [[nodiscard]] std::string court_match() const;

  private:
    using Failure = std::optional<CallError>;
    void run();
    [[nodiscard]] Failure work();
    [[nodiscard]] Failure keep_watching();
    [[nodiscard]] Failure store_steps();
    [[nodiscard]] Failure fetch_court();
    [[nodiscard]] Failure fetch_ahead(const v1::FetchMatchResponse& court,
                                      std::vector<StoredMatch>& matches);
    [[nodiscard]] Failure obtain_writer(v1::FetchMatchResponse& answer);
    [[nodiscard]] Failure take_back(const v1::FetchMatchResponse& answer);
    [[nodiscard]] Failure resend_what_is_missing(const v1::FetchMatchResponse& answer);
    [[nodiscard]] Failure push_all();
    [[nodiscard]] Failure push_match(const std::string& match_id);
    [[nodiscard]] Failure settle(const std::string& match_id,
                                 const std::vector<JournalEntry>& batch,
                                 const v1::PushResponse& response, bool& moved);
    void take_step(v1::WatchResponse step);
    void report(const Failure& failure);
    void changed();

    Journal& journal_;
    Courier& courier_;
    const Device device_;
    const Options options_;
    BackOff back_off_;
    std::function<void()> on_change_;
    std::thread thread_;

    mutable std::mutex mutex_;
    std::condition_variable wake_;
    // All below is guarded by mutex_.
    bool stop_ = false;
    bool work_waits_ = true;
    bool look_at_court_ = true;
    bool watching_ = false;
    bool watch_overflow_ = false;
    std::optional<CallError> watch_end_;
    std::deque<v1::WatchResponse> steps_;
    SyncStatus::Link link_ = SyncStatus::Link::offline;
    std::string error_;
    std::string court_match_;
};

}  // namespace courthand::client
