#include "client/session/device.h"

#include <array>
#include <charconv>

#include <fmt/format.h>

#include "wire/uuid.h"

namespace courthand::client {
namespace {

constexpr std::array<std::string_view, 3> seats{"table", "desk", "head"};

std::uint16_t number_of(std::string_view text) {
    std::uint16_t number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

}  // namespace

std::string_view word(Seat seat) noexcept {
    return seats[static_cast<std::size_t>(seat)];
}

std::optional<Seat> seat_of(std::string_view word) noexcept {
    for (std::size_t i = 0; i < seats.size(); ++i)
        if (seats[i] == word) return static_cast<Seat>(i);
    return std::nullopt;
}

std::variant<Device, JournalError> load_device(Journal& journal) {
    Device device;
    device.id = journal.setting("device/id");
    if (device.id.empty()) {
        device.id = wire::UuidMaker::of_system().next().to_text();
        if (auto error = store_device(journal, device)) return *error;
        return device;
    }
    device.enrolled = journal.setting("device/enrolled") == "yes";
    device.seat = seat_of(journal.setting("device/seat")).value_or(Seat::table);
    device.court = number_of(journal.setting("device/court"));
    device.server = journal.setting("device/server");
    device.tournament_id = journal.setting("device/tournament");
    device.tournament_name = journal.setting("device/tournament-name");
    return device;
}

std::optional<JournalError> store_device(Journal& journal, const Device& device) {
    return journal.store({}, {{"device/id", device.id},
                              {"device/enrolled", device.enrolled ? "yes" : "no"},
                              {"device/seat", std::string{word(device.seat)}},
                              {"device/court", fmt::format("{}", device.court)},
                              {"device/server", device.server},
                              {"device/tournament", device.tournament_id},
                              {"device/tournament-name", device.tournament_name}});
}

}  // namespace courthand::client
