// What the calls of the head and desk seats have in common. The channel itself is made by
// client/sync from the device's folder.
#pragma once

#include <chrono>
#include <functional>
#include <string>

namespace grpc {
class Channel;
class ClientContext;
class Status;
}  // namespace grpc

namespace courthand::venue {

/// Waits until the channel is connected; false when it is not in time, or when `given_up` says so.
/// A call that fails at once leaves nobody to look after a connection in the making, so whoever
/// wants to reconnect must wait here.
[[nodiscard]] bool reached(grpc::Channel& channel, std::chrono::milliseconds time,
                           const std::function<bool()>& given_up);

/// What every call carries: the version of the conversation.
void sign_call(grpc::ClientContext& context);

/// A sentence for a person about a call that failed and that only reads: the server's own words
/// where it has any.
[[nodiscard]] std::string failure_words(const grpc::Status& status);
/// The same about an act that was sent. When its answer is lost nobody knows whether it was done,
/// and that is said.
[[nodiscard]] std::string act_failure_words(const grpc::Status& status);
/// About an act that was not sent, since there was no connection.
inline constexpr const char* not_sent =
    "The server cannot be reached. Nothing was sent or changed; try again in a moment.";
/// True when trying again is of no use until a person has done something.
[[nodiscard]] bool final_refusal(const grpc::Status& status);

}  // namespace courthand::venue
