#include "server/service/venue_area.h"

#include <grpcpp/impl/service_type.h>

#include "server/auth/postgres/pg_enrolment_store.h"
#include "server/desk/postgres/pg_desk_store.h"
#include "server/service/desk_message.h"
#include "server/service/desk_service.h"
#include "server/service/enrolment_service.h"
#include "server/service/venue_service.h"
#include "server/venue/postgres/pg_alert_store.h"
#include "server/venue/postgres/pg_heard_store.h"
#include "server/venue/postgres/pg_refusal_store.h"

namespace courthand::server::service {

namespace {

alerts::Now clock() {
    return {std::chrono::system_clock::now(), std::chrono::steady_clock::now()};
}

}  // namespace

struct VenueArea::Parts {
    explicit Parts(const Needs& needs)
        : tournament{needs.tournament},
          enrolments{auth::make_pg_enrolment_store(needs.database, needs.tournament)},
          watched_enrolments{auth::make_pg_enrolment_store(needs.watch_database, needs.tournament)},
          alerts{venue::make_pg_alert_store(needs.watch_database, needs.tournament)},
          desk{desk::make_pg_desk_store(needs.database, needs.tournament)},
          devices{*watched_enrolments},
          venue{needs.tournament, *alerts, clock,
                [&refusals = needs.refusals] { return refusals.now(); }},
          shared{needs.tournament,
                 needs.tournament_name,
                 needs.authority,
                 *enrolments,
                 devices,
                 *desk,
                 needs.matches,
                 needs.keeper,
                 venue,
                 needs.work,
                 needs.hub,
                 needs.presence,
                 needs.stamp,
                 needs.streams,
                 needs.audit_store,
                 needs.audit},
          refused{needs.watch_database, needs.tournament},
          refusals{needs.refusals},
          heard{needs.watch_database, needs.tournament, clock},
          hearing{venue.heard_devices(), heard} {
        // An act leaves its row of the audit and its notice in its own transaction, also there.
        needs.watch_database.add_statements(needs.database.statements());
        services.push_back(make_venue_service(shared));
        services.push_back(make_desk_service(shared));
        services.push_back(make_enrolment_service(shared));
    }

    TournamentId tournament;
    std::unique_ptr<auth::EnrolmentStore> enrolments;
    std::unique_ptr<auth::EnrolmentStore> watched_enrolments;
    std::unique_ptr<alerts::AlertStore> alerts;
    std::unique_ptr<desk::DeskStore> desk;
    auth::DeviceRegister devices;
    venue::VenueKeeper venue;
    VenueParts shared;
    venue::PgRefusalStore refused;
    Refusals& refusals;
    venue::PgHeardStore heard;
    venue::HeardSharing hearing;
    std::vector<std::unique_ptr<grpc::Service>> services;
};

VenueArea::VenueArea(const Needs& needs) : parts_{std::make_unique<Parts>(needs)} {}
VenueArea::~VenueArea() {
    stop();
}

MatchObserver& VenueArea::observer() noexcept {
    return parts_->venue;
}
auth::DeviceRegister& VenueArea::devices() noexcept {
    return parts_->devices;
}

Status VenueArea::start() {
    Status status = parts_->venue.start();
    if (!status.ok()) return status;
    renew_courts(parts_->shared);
    StreamRegistry& streams = parts_->shared.streams;
    parts_->devices.watch(
        [&streams](DeviceId device) {
            streams.end_device(device, {grpc::StatusCode::UNAUTHENTICATED,
                                        "the desk has withdrawn this device: ask the desk for a "
                                        "new enrolment code"});
        },
        [&streams, this] {
            streams.tidy();
            // While the database is away, what was refused here is shown here.
            (void)venue::share(parts_->refusals, parts_->refused);
            parts_->hearing.look();
        });
    return status;
}

void VenueArea::stop() {
    parts_->devices.stop_watching();
    parts_->venue.stop();
}

std::vector<grpc::Service*> VenueArea::services() const {
    std::vector<grpc::Service*> services;
    for (const auto& service : parts_->services) services.push_back(service.get());
    return services;
}

std::optional<v1::Team> VenueArea::team(TeamId id) const {
    Result<desk::Team> team = parts_->desk->team(id);
    if (!team.ok() && team.status().code == StatusCode::not_found) return std::nullopt;
    return to_message(value_or_throw(std::move(team)), parts_->tournament);
}

bool VenueArea::withdrawn(DeviceId device) const {
    return parts_->devices.standing(device) == auth::DeviceStanding::revoked;
}

std::string VenueArea::key_of(DeviceId device) const {
    return parts_->devices.key_of(device);
}

}  // namespace courthand::server::service
