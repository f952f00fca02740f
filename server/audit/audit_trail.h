// Writes the audit: acts before their answer goes out, refusals a moment later and only so many, so
// that a stranger who is turned away again and again cannot fill the database. Thread-safe.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "server/audit/audit_store.h"
#include "server/domain/steady_clock.h"

namespace courthand::server::audit {

class AuditTrail {
  public:
    /// Rows of one device or address in a minute; what comes after is counted and told in one row.
    static constexpr std::uint32_t most_refusals_a_minute = 10;
    /// Devices and addresses told apart at once; further ones share one count.
    static constexpr std::size_t most_sources = 1024;
    /// Rows that wait while the database is away; beyond it the loss is counted and told.
    static constexpr std::size_t most_waiting = 2000;
    static constexpr std::chrono::seconds window{60};

    using WallNow = std::function<auth::Instant()>;

    /// `store` outlives the trail.
    explicit AuditTrail(
        AuditStore& store, SteadyNow now = steady_now,
        WallNow wall = [] { return std::chrono::system_clock::now(); });
    /// Writes what waits, once, but to a store that has just been waited for in vain.
    ~AuditTrail();
    AuditTrail(const AuditTrail&) = delete;
    AuditTrail& operator=(const AuditTrail&) = delete;

    /// An act on its way, on one thread: its row is kept in the transaction of the act itself,
    /// where that is one, so that neither is there without the other.
    class Act {
      public:
        /// Number and time of the entry are filled in.
        Act(AuditTrail& trail, AuditEntry entry);
        /// The act was done: writes the row when no transaction has, as `act` does. `who`: is the
        /// result of the act.
        void done(const std::optional<auth::Caller>& who = {});
        /// Of its row. A refusal that carries it stands only where the act has not been kept after
        /// all: of an act in doubt nobody knows.
        [[nodiscard]] Uuid id() const noexcept { return entry_.id; }

      private:
        AuditTrail& trail_;
        AuditEntry entry_;
        std::unique_ptr<RowOfAct> row_;
    };

    /// An act, refused or not, of somebody who may act. Durable on return when the database is
    /// there; otherwise it is kept and tried again. May wait for the database. Number and time are
    /// filled in.
    void act(AuditEntry entry);
    /// A call that was turned away. `source` is the device or the address it came from. Never
    /// waits.
    void refused(const std::string& source, AuditEntry entry);

  private:
    struct Source {
        SteadyTime since;
        std::uint32_t rows = 0;
        std::uint32_t more = 0;  ///< not written in this window
        AuditEntry last;
    };
    void put(AuditEntry entry);
    void close_windows(bool all);
    void tell_loss();
    void run();
    [[nodiscard]] bool write_waiting();

    AuditStore& store_;
    SteadyNow now_;
    WallNow wall_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::map<std::string, Source> sources_;
    std::deque<AuditEntry> waiting_;
    std::uint64_t lost_ = 0;
    bool stop_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::audit
