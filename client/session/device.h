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
    std::uint16_t court = 0;    ///< of a table; 0 for the other seats
    std::string server;         ///< HOST:PORT; empty when not known
    std::string tournament_id;  ///< UUID text; empty before enrolment
    std::string tournament_name;  ///< for the head of the screens; may be empty
};

/// Reads what is kept. A journal that has no device yet gets an id, so that it can practise.
[[nodiscard]] std::variant<Device, JournalError> load_device(Journal& journal);
/// The settings of a journal that keep it.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> settings_of(const Device& device);
/// The number of a court as a setting keeps it; 0 for none.
[[nodiscard]] std::uint16_t court_of(std::string_view setting) noexcept;
[[nodiscard]] std::optional<JournalError> store_device(Journal& journal, const Device& device);

}  // namespace courthand::client
