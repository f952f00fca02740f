// The header of every response: which server answered, and how far its feed was. Thread-safe.
#pragma once

#include <cstdint>
#include <functional>
#include <string>

#include "courthand/v1/common.pb.h"
#include "server/domain/ids.h"

namespace courthand::server::service {

class ResponseStamp {
  public:
    /// `start_number` counts the starts of this server.
    ResponseStamp(std::string server_id, std::uint64_t start_number,
                  std::function<FeedPosition()> position)
        : server_id_{std::move(server_id)},
          start_number_{start_number},
          position_{std::move(position)} {}

    void fill(v1::ResponseHeader& header) const;

  private:
    std::string server_id_;
    std::uint64_t start_number_;
    std::function<FeedPosition()> position_;
};

}  // namespace courthand::server::service
