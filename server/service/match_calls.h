// Grants and single matches: the bodies of the calls, without network. They may wait for the
// database and run on the work queue.
#pragma once

#include <variant>

#include "courthand/v1/sync.pb.h"
#include "server/service/sync_parts.h"

namespace courthand::server::service {

[[nodiscard]] std::variant<v1::GrantWriterResponse, Status> grant_writer(
    const SyncParts& parts, const auth::Caller& who, const v1::GrantWriterRequest& request);

[[nodiscard]] std::variant<v1::FetchMatchResponse, Status> fetch_match(
    const SyncParts& parts, const auth::Caller& who, const v1::FetchMatchRequest& request);

}  // namespace courthand::server::service
