// From the messages of the Desk service to the values of the desk's book.
#pragma once

#include "courthand/v1/desk.pb.h"
#include "venue/desk_book.h"

namespace courthand::venue {

[[nodiscard]] MatchPlanned match_of(const v1::Match& match);
[[nodiscard]] CourtListed court_of(const v1::Court& court);
[[nodiscard]] TeamListed team_of(const v1::Team& team);
[[nodiscard]] ResultListed result_of(const v1::MatchResult& result);
[[nodiscard]] DeviceListed device_of(const v1::Device& device);
[[nodiscard]] RosterReading reading_of(const v1::ImportRosterResponse& response);
[[nodiscard]] AuditListed audit_of(const v1::AuditLine& line);
[[nodiscard]] v1::Seat seat_of(Seat seat);

}  // namespace courthand::venue
