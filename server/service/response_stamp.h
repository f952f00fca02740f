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
    struct Parts {
        std::string server_id;
        std::uint64_t start_number = 0;  ///< counts the starts of this server
        std::string version;             ///< of the program
        std::function<FeedPosition()> position;
        std::function<Uuid()> generation;  ///< of the database
    };
    explicit ResponseStamp(Parts parts) : parts_{std::move(parts)} {}

    void fill(v1::ResponseHeader& header) const;

  private:
    Parts parts_;
};

}  // namespace courthand::server::service
