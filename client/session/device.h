// Who this device is at the venue, as enrolment told it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "client/journal/journal.h"

namespace courthand::client {

enum class Seat : std::uint8_t { table, desk, head };

[[nodiscard]] std::string_view word(Seat seat) noexcept;
[[nodiscard]] std::optional<Seat> seat_of(std::string_view word) noexcept;

struct Device {
    std::string id;  ///< UUID text; of a device that was never enrolled, one of its own
    bool enrolled = false;
    Seat seat = Seat::table;
    std::uint16_t court = 0;      ///< of a table; 0 for the other seats
    std::string server;           ///< HOST:PORT; empty when not known
    std::string tournament_id;    ///< UUID text; empty before enrolment
    std::string tournament_name;  ///< for the head of the screens; may be empty
};

/// Reads what is kept. A journal that has no device yet gets an id, so that it can practise.
[[nodiscard]] std::variant<Device, JournalError> load_device(Journal& journal);
/// Begins the names of the settings that keep the device of a journal.
inline constexpr std::string_view device_prefix = "device/";
/// A device as settings that begin with the prefix, and back; without an id when there are none.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> settings_of(
    const Device& device, std::string_view prefix = device_prefix);
[[nodiscard]] Device kept_device(const Journal& journal, std::string_view prefix = device_prefix);
[[nodiscard]] std::optional<JournalError> store_device(Journal& journal, const Device& device);

}  // namespace courthand::client
