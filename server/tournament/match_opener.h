// Keeps the plans of the tables as the tournament's record has the matches (opening.h): a thread
// that looks whenever the record has changed. Several servers may do it at once: what they do is
// named alike, and whoever is behind looks again.
#pragma once

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "server/domain/fault_shield.h"
#include "server/store/match_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

struct Opening;

class MatchOpener {
  public:
    /// Looks by itself this often: another server may have ended in the middle of a look.
    static constexpr std::chrono::seconds looks_every{30};
    /// After a look that the database did not allow, or in which others came first.
    static constexpr std::chrono::seconds tries_again{1};

    /// Told of each look by the thread: ok, or why not all is as the record says.
    using Looked = std::function<void(const Status&)>;

    /// `record` and `matches` outlive this.
    MatchOpener(TournamentId tournament, RecordKeeper& record, MatchStore& matches,
                Looked looked = {});
    ~MatchOpener() { stop(); }
    MatchOpener(const MatchOpener&) = delete;
    MatchOpener& operator=(const MatchOpener&) = delete;

    /// Brings the plans up to the record as it is now. From any thread; one look at a time.
    [[nodiscard]] Status look();

    void start();
    /// Ends the thread; what it is at is done first.
    void stop();

  private:
    void run();
    void wake();
    [[nodiscard]] Result<KnownRecord> open_records(const std::vector<StoredMatch>& stored);
    [[nodiscard]] Status keep(const Opening& opening);

    TournamentId tournament_;
    RecordKeeper& record_;
    MatchStore& matches_;
    Looked looked_;
    std::mutex looking_mutex_;
    std::atomic<bool> overtaken_ = false;  ///< in the last look others came first
    FaultShield looking_shield_{"opening matches"};
    FaultShield telling_shield_{"telling of opened matches"};

    std::mutex mutex_;
    std::condition_variable woken_;
    bool wanted_ = false;
    bool stop_ = false;
    std::uint64_t listening_ = 0;
    std::thread thread_;
};

}  // namespace courthand::server::tournament
