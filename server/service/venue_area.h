// The venue side of the server put together: what main needs, and no more.
//
// Order of use: make it; add `observer()` to the keeper of matches; `start`; then let the keeper
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
#include "server/store/postgres/database.h"

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
        postgres::Database& database;  ///< of calls
        /// Of alerts, revocations and devices that are not known: whoever holds all connections of
        /// the other holds up none of them.
        postgres::Database& watch_database;
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
    };

    explicit VenueArea(const Needs& needs);
    ~VenueArea();
    VenueArea(const VenueArea&) = delete;
    VenueArea& operator=(const VenueArea&) = delete;

    [[nodiscard]] MatchObserver& observer() noexcept;
    [[nodiscard]] auth::DeviceRegister& devices() noexcept;

    /// Reads the lives of alerts and the courts back and begins to work.
    [[nodiscard]] Status start();
    void stop();

    /// Venue, Desk and Enrolment; each valid as long as the area.
    [[nodiscard]] std::vector<grpc::Service*> services() const;

    // For the service of the tables; both may wait for the database and may throw StoreFailure.
    [[nodiscard]] std::optional<v1::Team> team(TeamId id) const;
    [[nodiscard]] bool withdrawn(DeviceId device) const;
    [[nodiscard]] std::string key_of(DeviceId device) const;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::server::service
