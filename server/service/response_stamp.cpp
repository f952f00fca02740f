#include "server/service/response_stamp.h"

#include <chrono>

namespace courthand::server::service {

void ResponseStamp::fill(v1::ResponseHeader& header) const {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    header.set_server_id(parts_.server_id);
    header.set_incarnation(parts_.start_number);
    header.set_server_version(parts_.version);
    header.set_position(parts_.position());
    header.set_generation(to_bytes(parts_.generation()));
    header.set_server_time_us(std::chrono::duration_cast<std::chrono::microseconds>(now).count());
}

}  // namespace courthand::server::service
