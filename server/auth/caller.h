// Who calls: the device behind a client certificate, and the seat it was enrolled for.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "server/domain/ids.h"
#include "wire/message_limits.h"

namespace courthand::server::auth {

/// A moment of the server's clock. It decides expiry only, never an order.
using Instant = std::chrono::system_clock::time_point;

/// The three seats of a venue.
enum class Seat : std::uint8_t { table, desk, head };

[[nodiscard]] std::string_view word(Seat seat) noexcept;
[[nodiscard]] std::optional<Seat> seat_of(std::string_view word) noexcept;

/// A court by its number on the floor plan; 0 for seats without a court.
using CourtNumber = std::uint32_t;

/// An enrolled device, as its certificate states it.
struct Caller {
    DeviceId device;
    Seat seat = Seat::table;
    CourtNumber court = 0;
    friend bool operator==(const Caller&, const Caller&) = default;
};

/// The subject alternative name that carries a caller:
/// `courthand:device/<id>?seat=<word>&court=<number>`.
[[nodiscard]] std::string uri_of(const Caller& caller);
/// The caller a subject alternative name carries, or nothing when it is not one of ours.
[[nodiscard]] std::optional<Caller> caller_of_uri(std::string_view uri);

/// As the wire format allows.
inline constexpr CourtNumber most_courts = wire::most_courts;

}  // namespace courthand::server::auth
