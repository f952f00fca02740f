// Grants and single matches: the bodies of the calls, without network. They may wait for the
// database and run on the work queue.
#pragma once

#include "courthand/v1/sync.pb.h"
#include "server/service/sync_parts.h"

namespace courthand::server::service {

[[nodiscard]] Result<v1::GrantWriterResponse> grant_writer(const SyncParts& parts,
                                                           const auth::Caller& who,
                                                           const v1::GrantWriterRequest& request);

[[nodiscard]] Result<v1::FetchMatchResponse> fetch_match(const SyncParts& parts,
                                                         const auth::Caller& who,
                                                         const v1::FetchMatchRequest& request);

}  // namespace courthand::server::service
