// The venue side of the server put together: what main needs, and no more.
//
// Order of use: make it; add `keeper()` to the keeper of matches; `start`; then let the keeper
// read the records; give `services()` and `devices()` to the network. Stop in the other order.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "courthand/v1/roster.pb.h"
#include "server/auth/device_register.h"
#include "server/domain/refusals.h"
#include "server/service/venue_parts.h"
#include "server/venue/heard_store.h"
#include "server/venue/refusal_store.h"

namespace grpc {
class Service;
}

namespace courthand::server::service {

class VenueArea {
  public:
    /// All of it outlives the area.
    struct Needs {
        TournamentId tournament;
        std::string tournament_name;
        auth::EnrolmentStore& enrolments;  ///< of calls
        auth::EnrolmentStore& watched_enrolments;
        alerts::AlertStore& alerts;
        venue::RefusalStore& refused;
        venue::HeardStore& heard;
        desk::DeskStore& desk;
        tournament::FactStore& facts;
        tournament::RecordKeeper& record;  ///< on `facts`
        const auth::Authority& authority;
        MatchStore& matches;
        MatchKeeper& keeper;
        WorkQueue& work;
        Hub& hub;
        Presence& presence;
        ResponseStamp& stamp;
        StreamRegistry& streams;
        audit::AuditStore& audit_store;
        audit::AuditTrail& audit;
        Refusals& refusals;
        LeftToDesk left_to_desk;
        venue::VenueKeeper::Clock clock;
    };

    explicit VenueArea(const Needs& needs);
    ~VenueArea();
    VenueArea(const VenueArea&) = delete;
    VenueArea& operator=(const VenueArea&) = delete;

    [[nodiscard]] venue::VenueKeeper& keeper() noexcept;
    [[nodiscard]] auth::DeviceRegister& devices() noexcept;

    /// Reads the tournament's record, the lives of alerts and the courts back and begins to work.
    [[nodiscard]] Status start();
    void stop();

    /// Venue, Desk, Enrolment, Tournament and Export; each valid as long as the area.
    [[nodiscard]] std::vector<grpc::Service*> services() const;

    /// The record of the tournament may have other courts.
    void renew_courts();

    // For the service of the tables; each may wait for the database.
    /// Nothing when the desk has no such team.
    [[nodiscard]] Result<std::optional<v1::Team>> team(TeamId id) const;
    [[nodiscard]] Result<bool> withdrawn(DeviceId device) const;
    [[nodiscard]] Result<std::string> key_of(DeviceId device) const;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::server::service
