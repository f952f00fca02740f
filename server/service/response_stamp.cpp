#include "server/service/response_stamp.h"

#include <chrono>

namespace courthand::server::service {

void ResponseStamp::fill(v1::ResponseHeader& header) const {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    header.set_server_id(server_id_);
    header.set_incarnation(start_number_);
    header.set_position(position_());
    header.set_server_time_us(std::chrono::duration_cast<std::chrono::microseconds>(now).count());
}

}  // namespace courthand::server::service
