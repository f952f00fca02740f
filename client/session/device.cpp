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
    Device device = kept_device(journal);
    if (!device.id.empty()) return device;
    device = {};
    device.id = wire::UuidMaker::of_system().next().to_text();
    if (auto error = store_device(journal, device)) return *error;
    return device;
}

Device kept_device(const Journal& journal, std::string_view prefix) {
    const auto setting = [&](std::string_view name) {
        return journal.setting(fmt::format("{}{}", prefix, name));
    };
    Device device;
    device.id = setting("id");
    device.enrolled = setting("enrolled") == "yes";
    device.seat = seat_of(setting("seat")).value_or(Seat::table);
    device.court = number_of(setting("court"));
    device.server = setting("server");
    device.tournament_id = setting("tournament");
    device.tournament_name = setting("tournament-name");
    return device;
}

std::vector<std::pair<std::string, std::string>> settings_of(const Device& device,
                                                             std::string_view prefix) {
    const auto named = [&](std::string_view name) { return fmt::format("{}{}", prefix, name); };
    return {{named("id"), device.id},
            {named("enrolled"), device.enrolled ? "yes" : "no"},
            {named("seat"), std::string{word(device.seat)}},
            {named("court"), fmt::format("{}", device.court)},
            {named("server"), device.server},
            {named("tournament"), device.tournament_id},
            {named("tournament-name"), device.tournament_name}};
}

std::optional<JournalError> store_device(Journal& journal, const Device& device) {
    return journal.store({}, settings_of(device));
}

}  // namespace courthand::client
