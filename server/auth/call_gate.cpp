#include "server/auth/call_gate.h"

#include <grpcpp/grpcpp.h>

#include "server/auth/roles.h"
#include "server/domain/fault_log.h"
#include "server/service/status_map.h"
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

Status check_standing(const Caller& who, DeviceRegister& devices) {
    const Result<DeviceStanding> standing = devices.standing(who.device);
    if (!standing.ok()) return standing.status();
    constexpr const char* new_code = "ask the desk for a new enrolment code";
    switch (*standing) {
        case DeviceStanding::good:
            return Status::fine();
        case DeviceStanding::unknown:
            return Status::failed(StatusCode::not_enrolled,
                                  "this device is not known in this venue", new_code);
        case DeviceStanding::revoked:
            return Status::failed(StatusCode::not_enrolled, "the desk has withdrawn this device",
                                  new_code);
    }
    return Status::fine();
}

bool turned_away(const Status& why) {
    return why.code == StatusCode::not_enrolled || why.code == StatusCode::not_allowed;
}

/// What a caller, who may be anybody, is told: nothing about hosts, accounts or tables.
Status told(const Status& why) {
    if (turned_away(why) || why.code == StatusCode::exhausted) return why;
    return Status::failed(StatusCode::unavailable, "the server cannot reach its database",
                          "try again in a moment");
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
                return service::to_grpc(Status::failed(
                    StatusCode::not_now, *why, "bring this program and the server to one version"));
        try {
            const std::optional<Caller> who = caller(*context);
            const Status checked = check_call(who, method, devices_);
            if (checked.ok()) return grpc::Status::OK;
            if (turned_away(checked) && turned_away_) turned_away_(who, method, checked);
            return service::to_grpc(told(checked));
        } catch (...) {
            log_current_exception("the gate");
            return service::to_grpc(service::own_fault());
        }
    }

  private:
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

Status check_call(const std::optional<Caller>& who, std::string_view method,
                  DeviceRegister& devices) {
    const Role* role = role_of(method);
    if (role && role->anyone) return Status::fine();
    if (!who)
        return Status::failed(StatusCode::not_enrolled, "this call needs an enrolled device",
                              "ask the desk for an enrolment code");
    if (Status standing = check_standing(*who, devices); !standing.ok()) return standing;
    if (!role || !allows(*role, who->seat))
        return Status::failed(StatusCode::not_allowed,
                              "a " + std::string{word(who->seat)} + " seat may not do this",
                              "use a device enrolled for the seat whose task it is");
    return Status::fine();
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
