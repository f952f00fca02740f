// The size of messages: what a device may send, and what it can take. Asked by the readers and
// writers that all calls share (`work_call.h`, `server_stream.h`) and by the push.
#pragma once

#include <google/protobuf/message_lite.h>

#include "server/store/status.h"

namespace courthand::server::service {

/// `invalid` for more than `wire::most_message_bytes`. gRPC reads some more, so that who goes past
/// it hears these words and not those of gRPC.
[[nodiscard]] Status check_request(const google::protobuf::MessageLite& request);

/// `internal`, and a line in the log, for more than `wire::most_answer_bytes`: no device would read
/// it, and what it answers may have been done already. Pieces are made so that it never comes to
/// it.
[[nodiscard]] Status check_answer(const google::protobuf::MessageLite& answer);

}  // namespace courthand::server::service
