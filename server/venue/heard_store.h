// When the devices of a venue were heard last, shared between its servers by a table.
//
// Ages travel, not moments: no two hosts need agree about the time, and a row ages on the store's
// clock.
#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <utility>
#include <vector>

#include "server/domain/steady_clock.h"
#include "server/store/status.h"
#include "server/venue/heard_devices.h"

namespace courthand::server::venue {

/// Thread-safe.
class HeardStore {
  public:
    /// A device that nobody heard for so long is nobody's concern any more.
    static constexpr std::chrono::hours forgets{24};

    virtual ~HeardStore() = default;
    /// Keeps what one server heard and answers the newest of all servers, on this server's clock:
    /// `HeardDevices::most` of them at most. Waits for no disk and no standby: what is lost in a
    /// crash is heard again.
    [[nodiscard]] virtual Result<std::vector<HeardDevices::Heard>> exchange(
        const std::vector<HeardDevices::Heard>& untold) = 0;
};

/// The twin without a database. Servers that share one share its clock, too.
class MemoryHeardStore final : public HeardStore {
  public:
    using Clock = std::function<alerts::Now()>;
    explicit MemoryHeardStore(Clock clock = alerts::system_now) : clock_{std::move(clock)} {}

    Result<std::vector<HeardDevices::Heard>> exchange(
        const std::vector<HeardDevices::Heard>& untold) override;

  private:
    Clock clock_;
    std::mutex mutex_;
    std::map<DeviceId, HeardDevices::Heard> devices_;
};

/// Tells the others in coarse steps what was heard here, and learns what they heard. Of one thread.
class HeardSharing {
  public:
    /// A device's row is rewritten no more often, and what another server heard is at most twice
    /// as old: little beside the minute after which a court counts as not seen.
    static constexpr std::chrono::seconds every{3};

    /// Both outlive it.
    HeardSharing(HeardDevices& devices, HeardStore& store, SteadyNow now = steady_now)
        : devices_{devices}, store_{store}, now_{std::move(now)} {}

    /// Does it when it is time. While the database is away nothing is lost.
    void look();

  private:
    HeardDevices& devices_;
    HeardStore& store_;
    SteadyNow now_;
    SteadyTime due_{};
};

}  // namespace courthand::server::venue
