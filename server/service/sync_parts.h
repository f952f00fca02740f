// What the sync service works with. All parts outlive the service.
#pragma once

#include <functional>
#include <optional>

#include "courthand/v1/roster.pb.h"
#include "server/audit/audit_trail.h"
#include "server/domain/ingest.h"
#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/domain/refusals.h"
#include "server/domain/work_queue.h"
#include "server/feed/hub.h"
#include "server/feed/waking.h"
#include "server/service/court_rights.h"
#include "server/service/response_stamp.h"
#include "server/service/stream_registry.h"
#include "server/store/match_store.h"

namespace courthand::server::service {

struct SyncParts {
    TournamentId tournament;
    MatchStore& store;
    MatchKeeper& keeper;
    Ingest& ingest;
    WorkQueue& work;
    Hub& hub;
    Presence& presence;
    ResponseStamp& stamp;
    StreamRegistry& streams;
    CourtRights& rights;
    Refusals& refusals;
    audit::AuditTrail& audit;
    Waking& waking;
    /// A team with its list as the desk knows it; may wait for the database. Empty function: no
    /// lists.
    std::function<Result<std::optional<v1::Team>>(TeamId)> team;
    /// True when the desk has withdrawn the device; may wait for the database. Empty function:
    /// never.
    std::function<Result<bool>(DeviceId)> withdrawn;
    /// Public key of a device (DER), empty when it is not known; may wait for the database. Empty
    /// function: no keys, so no device can hand on for another.
    std::function<Result<std::string>(DeviceId)> key_of;
};

}  // namespace courthand::server::service
