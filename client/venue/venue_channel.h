// The connection of a head or desk seat to the venue's server: TLS with the device's certificate.
#pragma once

#include <memory>
#include <string>

namespace grpc {
class Channel;
class ClientContext;
class Status;
}  // namespace grpc

namespace courthand::venue {

/// What enrolment left in the device's folder, as PEM texts.
struct DeviceKeys {
    std::string authority_pem;
    std::string certificate_pem;
    std::string key_pem;
};

/// `address` is HOST:PORT. Connects by itself when it is first used and after every loss.
[[nodiscard]] std::shared_ptr<grpc::Channel> venue_channel(const std::string& address,
                                                           const DeviceKeys& keys);

/// What every call carries: the version of the conversation.
void sign_call(grpc::ClientContext& context);

/// A sentence for a person about a call that failed: the server's own words where it has any.
[[nodiscard]] std::string failure_words(const grpc::Status& status);
/// True when trying again is of no use until a person has done something.
[[nodiscard]] bool final_refusal(const grpc::Status& status);

}  // namespace courthand::venue
