// Group commit: pushes that arrive while one transaction commits share the next one.
//
// A store that does not keep what is given to it is asked again when somebody pushes, and else by
// an append of nothing, so that it is known when it is well again.
//
// Thread-safe. Answers come on the ingest thread, in the order of the submissions of a tournament;
// an answer must not block.
#pragma once

#include <array>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <span>
#include <thread>
#include <vector>

#include "server/domain/fault_shield.h"
#include "server/store/match_store.h"

namespace courthand::server {

struct Submission {
    using Answer = std::function<void(Result<std::vector<AppendResult>>)>;

    TournamentId tournament;
    std::vector<AppendItem> items;
    /// The match, when a table opened it without network and the store may not know it.
    std::optional<MatchPlan> opened_here;
    Answer answer;
};

class Ingest {
  public:
    /// What may wait: four full transactions of entries; a table repeats what was turned away.
    static constexpr std::size_t most_waiting_entries = 4 * most_entries_per_append;
    static constexpr std::size_t most_waiting_bytes = 16 * 1024 * 1024;
    static constexpr std::size_t most_waiting_submissions = 4096;
    /// A push that comes while the venue is busy waits for others as long as they keep coming
    /// within such a pause, for so many pauses at most: well below the commit that it saves. A
    /// table that pushes alone never waits.
    static constexpr std::chrono::microseconds gathers_for{100};
    static constexpr int most_pauses = 4;
    /// A store that took longer than this to say that it could not is not asked once more at once,
    /// nor for those that wait behind: it would take as long again. Their tables ask.
    static constexpr std::chrono::milliseconds asks_again_within{2000};
    /// How often a store that kept nothing is asked by itself.
    static constexpr std::chrono::milliseconds probes_every{1000};

    explicit Ingest(MatchStore& store);
    /// Answers what waits, then ends the thread.
    ~Ingest();
    Ingest(const Ingest&) = delete;
    Ingest& operator=(const Ingest&) = delete;

    /// Hears what was committed, in the order of the feed and before the answers go out, on the
    /// ingest thread; it must not block. What came along from a branch, and what a retry found kept
    /// already, is missing here: a gap in the positions shows it, and the feed has it. Set it
    /// before the first `submit`.
    using Committed = std::function<void(std::span<const FeedItem>)>;
    void set_committed(Committed committed);

    /// False when `submit` would turn so many entries away now: spares reading them.
    [[nodiscard]] bool has_room(std::size_t entries) const;
    /// False when too much waits: nothing was taken and nothing will be answered.
    [[nodiscard]] bool submit(Submission submission);
    /// For how long the store has kept nothing although something waited for it; zero when it keeps
    /// what comes.
    [[nodiscard]] std::chrono::milliseconds keeps_nothing_for() const;

  private:
    using Steady = std::chrono::steady_clock::time_point;
    void run();
    void probe();
    /// How an append ended.
    void note(const Status& status);
    void turn_away_waiting(const Status& status);
    std::vector<Submission> next_group();
    [[nodiscard]] bool have_enough() const;  ///< needs the lock
    void gather(std::unique_lock<std::mutex>& lock);
    [[nodiscard]] Result<std::vector<AppendResult>> append_guarded(
        const std::vector<Submission>& group);
    void commit(std::vector<Submission> group);
    void give(const Submission& submission, Result<std::vector<AppendResult>> results);
    [[nodiscard]] Result<std::vector<AppendResult>> append(const std::vector<Submission>& group);
    void tell_committed(const std::vector<AppendItem>& items,
                        const std::vector<AppendResult>& results) const;

    MatchStore& store_;
    Committed committed_;
    mutable std::mutex mutex_;
    std::condition_variable wake_;
    std::deque<Submission> waiting_;
    std::size_t waiting_entries_ = 0;
    std::size_t waiting_bytes_ = 0;
    std::array<std::size_t, 2> last_groups_{};  ///< submissions committed together, the last first
    std::size_t enough_ = 1;                    ///< the thread need not wake for fewer
    std::optional<Steady> keeps_nothing_since_;
    TournamentId last_tournament_;  ///< of the ingest thread alone
    bool stop_ = false;
    // Of the ingest thread alone.
    FaultShield appending_{"append"};
    FaultShield answering_{"the answer of a push"};
    std::thread thread_;
};

}  // namespace courthand::server
