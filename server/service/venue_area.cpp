#include "server/service/venue_area.h"

#include <grpcpp/impl/service_type.h>

#include "server/service/desk_message.h"
#include "server/service/desk_service.h"
#include "server/service/enrolment_service.h"
#include "server/service/export_service.h"
#include "server/service/record_follower.h"
#include "server/service/tournament_service.h"
#include "server/service/venue_service.h"

namespace courthand::server::service {

struct VenueArea::Parts {
    explicit Parts(const Needs& needs)
        : tournament{needs.tournament},
          devices{needs.watched_enrolments},
          venue{needs.tournament, needs.alerts, needs.clock,
                [&refusals = needs.refusals] { return refusals.now(); }},
          shared{needs.tournament,
                 needs.tournament_name,
                 needs.authority,
                 needs.enrolments,
                 devices,
                 needs.desk,
                 needs.matches,
                 needs.keeper,
                 venue,
                 needs.work,
                 needs.hub,
                 needs.presence,
                 needs.stamp,
                 needs.streams,
                 needs.audit_store,
                 needs.audit,
                 needs.record,
                 needs.facts,
                 needs.left_to_desk},
          refused{needs.refused},
          refusals{needs.refusals},
          hearing{venue.heard_devices(), needs.heard},
          record{{needs.record, needs.hub, needs.work}} {
        services.push_back(make_venue_service(shared));
        services.push_back(make_desk_service(shared));
        services.push_back(make_enrolment_service(shared));
        services.push_back(make_tournament_service(shared));
        services.push_back(make_export_service(shared));
    }

    TournamentId tournament;
    auth::DeviceRegister devices;
    venue::VenueKeeper venue;
    VenueParts shared;
    venue::RefusalStore& refused;
    Refusals& refusals;
    venue::HeardSharing hearing;
    RecordFollower record;
    std::vector<std::unique_ptr<grpc::Service>> services;
};

VenueArea::VenueArea(const Needs& needs) : parts_{std::make_unique<Parts>(needs)} {}
VenueArea::~VenueArea() {
    stop();
}

venue::VenueKeeper& VenueArea::keeper() noexcept {
    return parts_->venue;
}
auth::DeviceRegister& VenueArea::devices() noexcept {
    return parts_->devices;
}

// A stream that reads nothing: told to end at the next look, broken off at the first one after the
// patience is over.
static_assert(2 * auth::DeviceRegister::look_every + StreamRegistry::patience <=
              StreamRegistry::gone_within);

Status VenueArea::start() {
    if (Status read = parts_->record.start(); !read.ok()) return read;
    Status status = parts_->venue.start();
    if (!status.ok()) return status;
    renew_courts();
    StreamRegistry& streams = parts_->shared.streams;
    parts_->devices.watch(
        [&streams](DeviceId device) {
            streams.end_device(device, Status::failed(StatusCode::not_enrolled,
                                                      "the desk has withdrawn this device",
                                                      "ask the desk for a new enrolment code"));
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
    parts_->record.stop();
    parts_->devices.stop_watching();
    parts_->venue.stop();
}

void VenueArea::renew_courts() {
    service::renew_courts(parts_->shared);
}

std::vector<grpc::Service*> VenueArea::services() const {
    std::vector<grpc::Service*> services;
    for (const auto& service : parts_->services) services.push_back(service.get());
    return services;
}

Result<std::optional<v1::Team>> VenueArea::team(TeamId id) const {
    const Result<desk::Team> team = parts_->shared.desk.team(id);
    if (team.ok()) return std::optional{to_message(*team, parts_->tournament)};
    if (team.status().code == StatusCode::not_found) return std::optional<v1::Team>{};
    return team.status();
}

Result<bool> VenueArea::withdrawn(DeviceId device) const {
    const Result<auth::DeviceStanding> standing = parts_->devices.standing(device);
    if (!standing.ok()) return standing.status();
    return *standing == auth::DeviceStanding::revoked;
}

Result<std::string> VenueArea::key_of(DeviceId device) const {
    return parts_->devices.key_of(device);
}

}  // namespace courthand::server::service
