// One push: read, submit, answer. Knows no network; unary calls and streams share it.
#pragma once

#include <functional>
#include <variant>

#include "courthand/v1/sync.pb.h"
#include "server/service/sync_parts.h"

namespace courthand::server::service {

using PushAnswer = std::function<void(std::variant<v1::PushResponse, Status>)>;

/// A push of the device `who`: its own entries, and signed ones of others. Calls `answer` exactly
/// once, on any thread, perhaps before it returns.
void push(const SyncParts& parts, const auth::Caller& who, const v1::PushRequest& request,
          const PushAnswer& answer);

}  // namespace courthand::server::service
