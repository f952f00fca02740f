#include "server/auth/call_gate.h"

#include <grpcpp/grpcpp.h>

#include <exception>

#include "server/auth/roles.h"
#include "server/store/status.h"
#include "wire/protocol_version.h"

namespace courthand::server::auth {

namespace {

// The property under which gRPC lists every subject alternative name of the peer's certificate.
constexpr char alternative_names[] = "x509_subject_alternative_name";

constexpr std::string_view our_calls = "/courthand.v1.";
// An enrolling device says its protocol in the request.
constexpr std::string_view enrolment_calls = "/courthand.v1.Enrolment/";

std::string_view value_of(const grpc::AuthMetadataProcessor::InputMetadata& metadata,
                          const char* key) {
    const auto found = metadata.find(key);
    if (found == metadata.end()) return {};
    return {found->second.data(), found->second.size()};
}

grpc::StatusCode code_of(Refusal::Kind kind) {
    switch (kind) {
        case Refusal::Kind::wrong_code:
        case Refusal::Kind::expired_code:
        case Refusal::Kind::used_code:
        case Refusal::Kind::wrong_seat:
            return grpc::StatusCode::PERMISSION_DENIED;
        case Refusal::Kind::too_many_tries:
            return grpc::StatusCode::RESOURCE_EXHAUSTED;
        case Refusal::Kind::bad_request:
            return grpc::StatusCode::INVALID_ARGUMENT;
        case Refusal::Kind::no_certificate:
        case Refusal::Kind::unknown_device:
        case Refusal::Kind::revoked_device:
            return grpc::StatusCode::UNAUTHENTICATED;
        case Refusal::Kind::busy:
            return grpc::StatusCode::RESOURCE_EXHAUSTED;
        case Refusal::Kind::failed:
            return grpc::StatusCode::UNAVAILABLE;
    }
    return grpc::StatusCode::INTERNAL;
}

std::optional<Refusal> check_standing(const Caller& who, DeviceRegister& devices) {
    switch (devices.standing(who.device)) {
        case DeviceStanding::good:
            return std::nullopt;
        case DeviceStanding::unknown:
            return Refusal{Refusal::Kind::unknown_device, "this device is not known in this venue",
                           "ask the desk for a new enrolment code"};
        case DeviceStanding::revoked:
            return Refusal{Refusal::Kind::revoked_device, "the desk has withdrawn this device",
                           "ask the desk for a new enrolment code"};
    }
    return Refusal{};
}

class Gate final : public grpc::AuthMetadataProcessor {
  public:
    Gate(DeviceRegister& devices, TurnedAway turned_away)
        : devices_{devices}, turned_away_{std::move(turned_away)} {}

    // The store may be asked, so the check runs on gRPC's own pool of threads.
    bool IsBlocking() const override { return true; }

    grpc::Status Process(const InputMetadata& metadata, grpc::AuthContext* context, OutputMetadata*,
                         OutputMetadata*) override {
        const std::string_view method = value_of(metadata, ":path");
        // A client of a newer protocol is told so before anything else, whatever it calls.
        if (method.starts_with(our_calls) && !method.starts_with(enrolment_calls))
            if (const auto why =
                    wire::protocol_refusal(value_of(metadata, wire::protocol_metadata_key)))
                return {grpc::StatusCode::FAILED_PRECONDITION, *why};
        try {
            const std::optional<Caller> who = caller(*context);
            const auto refusal = check_call(who, method, devices_);
            if (!refusal) return grpc::Status::OK;
            if (turned_away_) turned_away_(who, method, *refusal);
            return status_of(*refusal);
        } catch (const StoreFailure& failure) {
            if (failure.status().code == StatusCode::exhausted)
                return status_of(
                    {Refusal::Kind::busy, failure.status().message, failure.status().cure});
            return unreachable();
        } catch (const std::exception&) {
            return unreachable();
        }
    }

  private:
    static grpc::Status unreachable() {
        return {grpc::StatusCode::UNAVAILABLE,
                "the server cannot reach its database: try again in a moment"};
    }

    DeviceRegister& devices_;
    TurnedAway turned_away_;
};

}  // namespace

std::optional<Caller> caller(const grpc::AuthContext& context) {
    if (!context.IsPeerAuthenticated()) return std::nullopt;
    for (const grpc::string_ref& name : context.FindPropertyValues(alternative_names))
        if (auto found = caller_of_uri({name.data(), name.size()})) return found;
    return std::nullopt;
}

std::optional<Refusal> check_call(const std::optional<Caller>& who, std::string_view method,
                                  DeviceRegister& devices) {
    const Role* role = role_of(method);
    if (role && role->anyone) return std::nullopt;
    if (!who)
        return Refusal{Refusal::Kind::no_certificate, "this call needs an enrolled device",
                       "ask the desk for an enrolment code"};
    if (auto refusal = check_standing(*who, devices)) return refusal;
    if (!role || !allows(*role, who->seat))
        return Refusal{Refusal::Kind::wrong_seat,
                       "a " + std::string{word(who->seat)} + " seat may not do this",
                       "use a device enrolled for the seat whose task it is"};
    return std::nullopt;
}

grpc::Status status_of(const Refusal& refusal) {
    return {code_of(refusal.kind), refusal.text()};
}

std::shared_ptr<grpc::ServerCredentials> server_credentials(const ServerIdentity& identity,
                                                            DeviceRegister& devices,
                                                            TurnedAway turned_away) {
    grpc::SslServerCredentialsOptions options{GRPC_SSL_REQUEST_CLIENT_CERTIFICATE_AND_VERIFY};
    options.pem_root_certs = identity.authority_pem;
    options.pem_key_cert_pairs.push_back({identity.key_pem, identity.cert_chain_pem});
    auto credentials = grpc::SslServerCredentials(options);
    credentials->SetAuthMetadataProcessor(std::make_shared<Gate>(devices, std::move(turned_away)));
    return credentials;
}

}  // namespace courthand::server::auth
