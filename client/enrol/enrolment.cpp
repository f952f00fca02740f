#include "client/enrol/enrolment.h"

#include <grpcpp/client_context.h>
#include <grpcpp/create_channel.h>
#include <grpcpp/security/credentials.h>
#include <unistd.h>

#include <array>
#include <chrono>

#include <fmt/format.h>

#include "client/enrol/begun_enrolment.h"
#include "client/enrol/device_folder.h"
#include "client/enrol/server_chain.h"
#include "client/enrol/signing_request.h"
#include "client/sync/call_error.h"
#include "client/sync/channel.h"
#include "courthand/v1/enrolment.grpc.pb.h"
#include "wire/certificate_time.h"
#include "wire/enrolment_code.h"
#include "wire/message_limits.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

constexpr std::chrono::seconds call_lasts{15};

std::string host_name() {
    std::array<char, wire::most_name_bytes + 1> name{};
    if (gethostname(name.data(), name.size() - 1) != 0 || name[0] == '\0') return "device";
    return name.data();
}

/// The authority among the certificates shown: the one the code was made for.
const ShownCertificate* authority_of(const std::vector<ShownCertificate>& chain,
                                     const wire::EnrolmentCode& code) {
    for (const ShownCertificate& certificate : chain)
        if (code.fits(certificate.der)) return &certificate;
    return nullptr;
}

std::string lost_answer(const std::string& server) {
    return fmt::format(
        "No answer came from the server {}. Try again with the same code: while it lives it stays "
        "good for this device, even when the server has used it up already.",
        server);
}

std::variant<v1::EnrolResponse, std::string> ask(const EnrolmentWish& wish,
                                                 const wire::EnrolmentCode& code,
                                                 const std::string& authority_pem,
                                                 const std::string& request_pem) {
    v1::EnrolRequest request;
    request.set_code_secret(code.secret());
    request.set_signing_request_pem(request_pem);
    request.set_device_name(wish.name.empty() ? host_name() : wish.name);
    request.set_protocol_version(wish.protocol);
    const auto stub = v1::Enrolment::NewStub(make_channel(wish.server, {{}, {}, authority_pem}));
    grpc::ClientContext context;
    prepare_context(context, wish.protocol);
    context.set_deadline(std::chrono::system_clock::now() + call_lasts);
    v1::EnrolResponse response;
    const grpc::Status status = stub->Enrol(&context, request, &response);
    if (status.ok()) return response;
    const CallError error = call_error(status, wish.server);
    if (error.kind == CallError::Kind::unreachable) return lost_answer(wish.server);
    return error.message;
}

std::optional<Seat> seat_of_message(v1::Seat seat) {
    switch (static_cast<int>(seat)) {
        case v1::SEAT_TABLE:
            return Seat::table;
        case v1::SEAT_DESK:
            return Seat::desk;
        case v1::SEAT_HEAD:
            return Seat::head;
        default:
            return std::nullopt;
    }
}

std::variant<Device, std::string> device_of(const v1::EnrolResponse& response,
                                            const std::string& server) {
    const auto id = wire::Uuid::from_bytes(response.device_id());
    const auto seat = seat_of_message(response.seat());
    const auto tournament = wire::Uuid::from_bytes(response.tournament_id());
    if (!id || !seat || response.certificate_pem().empty())
        return fmt::format(
            "The server {} gave an answer that this program does not understand: "
            "update this program.",
            server);
    Device device;
    device.id = id->to_text();
    device.enrolled = true;
    device.seat = *seat;
    device.court = static_cast<std::uint16_t>(response.court());
    device.server = server;
    if (tournament) device.tournament_id = tournament->to_text();
    device.tournament_name = response.tournament_name();
    return device;
}

}  // namespace

std::variant<Device, std::string> enrol(const EnrolmentWish& wish) {
    const auto parsed = wire::EnrolmentCode::parse(wish.code);
    if (const auto* wrong = std::get_if<std::string>(&parsed)) return *wrong;
    const auto& code = std::get<wire::EnrolmentCode>(parsed);
    // The folder must be usable before the code is used up.
    auto opened = Journal::open(wish.folder);
    if (auto* error = std::get_if<JournalError>(&opened)) return std::move(error->message);
    Journal& journal = *std::get<0>(opened);

    const auto chain = server_chain(wish.server);
    if (const auto* wrong = std::get_if<std::string>(&chain)) return *wrong;
    const auto& certificates = std::get<std::vector<ShownCertificate>>(chain);
    const ShownCertificate* authority = authority_of(certificates, code);
    if (authority == nullptr)
        return fmt::format(
            "The code was not made for the server {}: one of its last {} characters is mistyped, "
            "or this is the server of another venue. The secret was not sent. Compare the code and "
            "the address with the desk.",
            wish.server, wire::fingerprint_symbols);
    if (auto wrong = wire::clock_complaint(certificates.front().pem, wish.clock))
        return std::move(*wrong);
    const EnrolmentKey kept{wish.folder};
    const auto made = kept.request();
    if (const auto* wrong = std::get_if<std::string>(&made)) return *wrong;
    const auto& request = std::get<SigningRequest>(made);

    const auto answer = ask(wish, code, authority->pem, request.request_pem);
    if (const auto* wrong = std::get_if<std::string>(&answer)) return *wrong;
    const auto& response = std::get<v1::EnrolResponse>(answer);
    auto device = device_of(response, wish.server);
    if (std::holds_alternative<std::string>(device)) return device;
    // Whatever ends the program from here on, its next start goes on from what is kept.
    if (auto error = keep_answer(
            journal, {std::get<Device>(device), response.certificate_pem(), authority->pem}))
        return std::move(error->message);
    if (auto wrong = finish_enrolment(wish.folder, journal)) return std::move(*wrong);
    return device;
}

}  // namespace courthand::client
