// Keeps the plans of the tables as the tournament's record has the matches (opening.h): a thread
// that looks whenever the record has changed. Several servers may do it at once: what they do is
// named alike, and whoever is behind looks again.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <mutex>

#include "server/domain/fault_shield.h"
#include "server/store/match_store.h"
#include "server/tournament/looking_thread.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

struct Opening;

class MatchOpener {
  public:
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
    /// Looks and tells; true when all is as the record says.
    [[nodiscard]] bool look_and_tell();
    [[nodiscard]] Result<KnownRecord> open_records(const std::vector<StoredMatch>& stored);
    [[nodiscard]] Status keep(const Opening& opening);

    TournamentId tournament_;
    RecordKeeper& record_;
    MatchStore& matches_;
    Looked looked_;
    std::mutex looking_mutex_;
    std::atomic<bool> overtaken_ = false;  ///< in the last look others came first
    FaultShield telling_shield_{"telling of opened matches"};
    std::uint64_t listening_ = 0;
    LookingThread thread_{"opening matches", [this] { return look_and_tell(); }};
};

}  // namespace courthand::server::tournament
