// A watch as a stream of gRPC: one write in flight, the next from its completion.
#pragma once

#include <grpcpp/grpcpp.h>

#include <chrono>
#include <memory>
#include <optional>
#include <vector>

#include "server/service/store_stream.h"
#include "server/service/sync_parts.h"
#include "server/service/watch_session.h"

namespace courthand::server::service {

class WatchStream final : public StoreStream<v1::WatchResponse> {
  public:
    /// An idle stream says where it stands this often.
    static constexpr std::chrono::seconds bookmark_every{5};

    /// Makes the reactor of one call; it deletes itself when the call is over.
    static WatchStream* make(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                             const auth::Caller& who, grpc::CallbackServerContext& context);

  private:
    WatchStream(std::shared_ptr<const SyncParts> parts, WatchWish wish, const auth::Caller& who);
    void listen();
    void stop_listening() override;
    void wake(Hub::Wake why);
    [[nodiscard]] Status admit();
    /// What a job of the work queue does.
    [[nodiscard]] Status read(bool only_admit);
    /// These need the lock.
    void go_on() override;
    void advance() override;
    void write_next();

    std::shared_ptr<const SyncParts> hold_;  ///< jobs may outlive the service
    const SyncParts& parts_;
    const auth::Caller who_;
    const std::optional<MatchId> single_;  ///< the one match that is watched
    bool admitted_ = false;                ///< it was seen that the device may
    bool changed_ = false;                 ///< the match was: it is looked at again
    WatchSession session_;
    std::vector<v1::WatchResponse> queue_;
    std::size_t next_ = 0;  ///< of queue_
    std::chrono::steady_clock::time_point last_write_;
    Hub::Token hub_token_ = 0;
};

}  // namespace courthand::server::service
