// One push: read, submit, answer. Knows no network; the service of the tables calls it.
#pragma once

#include <functional>

#include "courthand/v1/sync.pb.h"
#include "server/service/sync_parts.h"

namespace courthand::server::service {

using PushAnswer = std::function<void(Result<v1::PushResponse>)>;

/// A push of the device `who`: its own entries, and signed ones of others. Calls `answer` exactly
/// once, on any thread, perhaps before it returns.
void push(const SyncParts& parts, const auth::Caller& who, const v1::PushRequest& request,
          const PushAnswer& answer);

}  // namespace courthand::server::service
