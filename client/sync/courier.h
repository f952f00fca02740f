// How the sync engine speaks with the server, without saying over what. The real one is gRPC
// (grpc_courier.h); tests have one in memory.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <variant>

#include "courthand/v1/sync.pb.h"

namespace courthand::client {

struct CallError {
    enum class Kind : std::uint8_t {
        unreachable,  ///< nobody answers; try again
        busy,         ///< the server asks to come back later
        refused,      ///< a person must act: revoked, wrong seat, program too new
        not_known,    ///< the server does not know what was asked for
        failed,       ///< the call itself is wrong or the server failed
        cancelled,    ///< by us
    };
    Kind kind = Kind::failed;
    std::string message;  ///< a sentence for the person at the device
};

template <class T>
using CallResult = std::variant<T, CallError>;

/// `push`, `fetch` and `grant` block and are called from one thread; `cancel` from any.
class Courier {
  public:
    struct WatchListener {
        /// Called on a thread of the courier, in order.
        std::function<void(v1::WatchResponse)> step;
        /// The stream has ended; nothing follows.
        std::function<void(CallError)> ended;
    };

    Courier() = default;
    Courier(const Courier&) = delete;
    Courier& operator=(const Courier&) = delete;
    virtual ~Courier() = default;

    [[nodiscard]] virtual CallResult<v1::PushResponse> push(const v1::PushRequest& request) = 0;
    [[nodiscard]] virtual CallResult<v1::FetchMatchResponse> fetch(
        const v1::FetchMatchRequest& request) = 0;
    [[nodiscard]] virtual CallResult<v1::GrantWriterResponse> grant(
        const v1::GrantWriterRequest& request) = 0;
    /// Starts the one stream; an earlier one must have ended.
    virtual void watch(const v1::WatchRequest& request, WatchListener listener) = 0;
    /// Ends the stream; returns after its last callback.
    virtual void stop_watch() = 0;
    /// Ends the call that is under way, and all later ones at once. For stopping.
    virtual void cancel() = 0;
};

}  // namespace courthand::client
