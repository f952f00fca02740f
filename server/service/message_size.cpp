#include "server/service/message_size.h"

#include <fmt/format.h>

#include "server/domain/fault_log.h"
#include "wire/answer_limit.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

Status check_request(const google::protobuf::MessageLite& request) {
    const std::size_t bytes = request.ByteSizeLong();
    if (bytes <= wire::most_message_bytes) return Status::fine();
    return Status::failed(StatusCode::invalid,
                          fmt::format("a message of {} bytes is too large, at most {} are read",
                                      bytes, wire::most_message_bytes),
                          "send fewer entries, facts or lines at once");
}

Status check_answer(const google::protobuf::MessageLite& answer) {
    const std::size_t bytes = answer.ByteSizeLong();
    if (bytes <= wire::most_answer_bytes) return Status::fine();
    Status fault = Status::failed(
        StatusCode::internal,
        fmt::format("the answer has {} bytes, a device takes at most {}", bytes,
                    wire::most_answer_bytes),
        "what was asked may have been done: look before you do it again, and tell whoever runs the "
        "server");
    log_fault("an answer", fault.text());
    return fault;
}

}  // namespace courthand::server::service
