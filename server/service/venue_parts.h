// What the services of the venue, the desk and enrolment work with. All parts outlive them.
#pragma once

#include <functional>
#include <string>

#include "server/audit/audit_trail.h"
#include "server/auth/authority.h"
#include "server/auth/device_register.h"
#include "server/auth/enrolment_store.h"
#include "server/desk/desk_store.h"
#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/domain/work_queue.h"
#include "server/feed/hub.h"
#include "server/service/response_stamp.h"
#include "server/service/stream_registry.h"
#include "server/store/match_store.h"
#include "server/tournament/fact_store.h"
#include "server/tournament/record_keeper.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::service {

/// Why a match that is closed at its table is left to the desk; empty: it is not.
using LeftToDesk = std::function<std::string(const LiveMatch&)>;

struct VenueParts {
    TournamentId tournament;
    std::string tournament_name;
    const auth::Authority& authority;
    auth::EnrolmentStore& enrolments;
    auth::DeviceRegister& devices;
    desk::DeskStore& desk;
    MatchStore& matches;
    MatchKeeper& keeper;
    venue::VenueKeeper& venue;
    WorkQueue& work;
    Hub& hub;
    Presence& presence;
    ResponseStamp& stamp;
    StreamRegistry& streams;
    audit::AuditStore& audit_store;
    audit::AuditTrail& audit;
    tournament::RecordKeeper& record;
    tournament::FactStore& facts;
    LeftToDesk left_to_desk;
};

}  // namespace courthand::server::service
