// Teams, devices, results and seats as messages, and back where the desk sends them. Pure.
#pragma once

#include <optional>

#include "courthand/v1/desk.pb.h"
#include "courthand/v1/roster.pb.h"
#include "server/audit/audit_store.h"
#include "server/auth/enrolment_store.h"
#include "server/desk/desk_store.h"
#include "server/desk/roster_file.h"
#include "server/domain/match_observer.h"

namespace courthand::server::service {

[[nodiscard]] v1::Seat to_message(auth::Seat seat) noexcept;
[[nodiscard]] std::optional<auth::Seat> seat_of(v1::Seat seat) noexcept;

[[nodiscard]] v1::Team to_message(const desk::Team& team, TournamentId tournament);
[[nodiscard]] v1::RowError to_message(const desk::RosterError& error);
[[nodiscard]] v1::Device to_message(const auth::Device& device,
                                    std::optional<ServerTime> last_seen);

/// Without the device's name.
[[nodiscard]] v1::AuditLine to_message(const audit::AuditEntry& line);

/// Result of a match as far as it has been played. Alerts are left alone.
[[nodiscard]] v1::MatchResult result_of(const LiveMatch& match);

}  // namespace courthand::server::service
