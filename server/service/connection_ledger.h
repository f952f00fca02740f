// From how many connections each device calls: gRPC neither counts nor limits them, so they are
// known by what is open on them, by the peer's address and port. Thread-safe.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "server/domain/ids.h"
#include "server/store/status.h"

namespace courthand::server::service {

class ConnectionLedger {
  public:
    /// A device's program has one; it may run twice, and what a lost network left behind is noticed
    /// within ten seconds. Further ones are refused, not the older ones ended: nothing tells which
    /// of them the person looks at.
    static constexpr std::size_t most_per_device = 6;

    /// A call or stream that is open on a connection; it ends with the last copy.
    class Place;
    using Entered = Result<std::shared_ptr<const Place>>;

    /// `exhausted` with the cure when the device calls from too many connections already.
    [[nodiscard]] Entered enter(DeviceId device, const std::string& peer);
    /// Connections of the device with something open.
    [[nodiscard]] std::size_t open(DeviceId device) const;

  private:
    void leave(DeviceId device, const std::string& peer);

    mutable std::mutex mutex_;
    /// Calls and streams that are open on each connection.
    std::map<DeviceId, std::map<std::string, std::size_t>> open_;
};

}  // namespace courthand::server::service
