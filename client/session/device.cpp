#include "client/session/device.h"

#include <array>
#include <charconv>

#include <fmt/format.h>

#include "wire/uuid.h"

namespace courthand::client {
namespace {

constexpr std::array<std::string_view, 3> seats{"table", "desk", "head"};

}  // namespace

std::uint16_t court_of(std::string_view setting) noexcept {
    std::uint16_t number = 0;
    std::from_chars(setting.data(), setting.data() + setting.size(), number);
    return number;
}

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
    device.court = court_of(journal.setting("device/court"));
    device.server = journal.setting("device/server");
    device.tournament_id = journal.setting("device/tournament");
    device.tournament_name = journal.setting("device/tournament-name");
    return device;
}

std::vector<std::pair<std::string, std::string>> settings_of(const Device& device) {
    return {{"device/id", device.id},
            {"device/enrolled", device.enrolled ? "yes" : "no"},
            {"device/seat", std::string{word(device.seat)}},
            {"device/court", fmt::format("{}", device.court)},
            {"device/server", device.server},
            {"device/tournament", device.tournament_id},
            {"device/tournament-name", device.tournament_name}};
}

std::optional<JournalError> store_device(Journal& journal, const Device& device) {
    return journal.store({}, settings_of(device));
}

}  // namespace courthand::client
