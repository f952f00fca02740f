// When each device was heard last: by this server, and by the other servers of the venue as far as
// was learnt of them. Thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <vector>

#include "server/alerts/condition.h"

namespace courthand::server::venue {

class HeardDevices {
  public:
    /// More devices than any venue has; of more, those heard longest ago are forgotten.
    static constexpr std::size_t most = 4096;

    struct Heard {
        DeviceId device;
        std::uint32_t court = 0;  ///< of the device; 0: none
        alerts::Now at{};
    };

    /// By this server.
    void heard(const Heard& heard);
    /// By whichever server.
    [[nodiscard]] std::optional<alerts::Now> last(DeviceId device) const;
    /// What was heard or learnt since the last call.
    [[nodiscard]] std::vector<Heard> take_news();

    // Between the servers of a venue.
    /// What was heard here and is not told yet, the newest of each device.
    [[nodiscard]] std::vector<Heard> untold() const;
    /// These were told, and this is what all servers together have heard.
    void learn(const std::vector<Heard>& told, const std::vector<Heard>& all);

  private:
    struct Known {
        Heard last;
        bool told = true;
        bool news = false;
    };
    Known& place_of(DeviceId device);

    mutable std::mutex mutex_;
    std::map<DeviceId, Known> devices_;
};

}  // namespace courthand::server::venue
