#include "client/app/enrolled_seat.h"

#include <filesystem>

#include <fmt/format.h>

#include "client/enrol/begun_enrolment.h"
#include "client/enrol/device_folder.h"
#include "client/sync/channel.h"
#include "client/sync/sync_engine.h"

namespace courthand::client {

std::variant<EnrolledSeat, std::string> enrolled_seat(const SeatOptions& options) {
    // Opening the journal of a folder that is none would make it.
    auto credentials = load_credentials(options.folder);
    auto* missing = std::get_if<std::string>(&credentials);
    if (missing != nullptr && !std::filesystem::exists(Journal::file(options.folder)))
        return std::move(*missing);
    auto opened = Journal::open(options.folder);
    if (auto* error = std::get_if<JournalError>(&opened)) return std::move(error->message);
    if (auto wrong = finish_enrolment(options.folder, *std::get<0>(opened)))
        return std::move(*wrong);
    credentials = load_credentials(options.folder);
    if (auto* wrong = std::get_if<std::string>(&credentials)) return std::move(*wrong);
    auto device = load_device(*std::get<0>(opened));
    if (auto* error = std::get_if<JournalError>(&device)) return std::move(error->message);
    EnrolledSeat seat{std::get<Device>(std::move(device)), std::get<Credentials>(credentials)};
    if (!options.server.empty()) seat.device.server = options.server;
    if (seat.device.server.empty()) return "No server is known: say which with --server HOST:PORT.";
    if (seat.device.enrolled && seat.device.seat != options.seat)
        return fmt::format(
            "This device was enrolled for the {} seat, not for the {} seat. Ask the "
            "desk for a code for that seat and enrol another folder.",
            word(seat.device.seat), word(options.seat));
    return seat;
}

venue::BoardClient::Options board_options(const EnrolledSeat& seat) {
    venue::BoardClient::Options options;
    options.seed = jitter_seed(seat.device);
    return options;
}

std::string desk_author(const Device& device) {
    constexpr std::size_t told_apart_by = 6;  // one in sixteen million that two desks are alike
    if (!device.enrolled || device.id.size() < told_apart_by) return "desk";
    return "desk " + device.id.substr(device.id.size() - told_apart_by);
}

std::shared_ptr<grpc::Channel> open_channel(const EnrolledSeat& seat) {
    return make_channel(seat.device.server, seat.credentials);
}

}  // namespace courthand::client
