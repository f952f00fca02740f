// A watch as a stream of gRPC: one write in flight, the next from its completion.
#pragma once

#include <grpcpp/support/server_callback.h>

#include <chrono>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "server/service/sync_parts.h"
#include "server/service/watch_session.h"

namespace courthand::server::service {

class WatchStream final : public grpc::ServerWriteReactor<v1::WatchResponse> {
  public:
    /// An idle stream says where it stands this often.
    static constexpr std::chrono::seconds bookmark_every{5};

    /// Makes the reactor of one call; it deletes itself when the call is over.
    static WatchStream* make(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                             const auth::Caller& who, grpc::CallbackServerContext& context);
    ~WatchStream() override;

    void OnWriteDone(bool ok) override;
    void OnCancel() override;
    void OnDone() override;

  private:
    enum class State : std::uint8_t { idle, pumping, writing, reading, finished };

    WatchStream(std::shared_ptr<const SyncParts> parts, WatchWish wish, const auth::Caller& who);
    [[nodiscard]] Status admit();
    void begin(std::shared_ptr<WatchStream> self, grpc::CallbackServerContext& context);
    void wake(Hub::Wake why);
    /// Both need the lock.
    void pump();
    void write_next();
    void read_store(bool only_admit = false);
    void finish(grpc::Status status);
    void end(grpc::Status status);

    std::shared_ptr<const SyncParts> hold_;  ///< jobs may outlive the service
    const SyncParts& parts_;
    const auth::Caller who_;
    const std::optional<MatchId> single_;  ///< the one match that is watched
    bool admitted_ = false;                ///< it was seen that the device may
    bool changed_ = false;                 ///< the match was: it is looked at again
    std::mutex mutex_;
    WatchSession session_;
    State state_ = State::idle;
    bool news_ = false;
    std::optional<grpc::Status> end_;  ///< finish with it when the write is done
    std::vector<v1::WatchResponse> queue_;
    std::size_t next_ = 0;  ///< of queue_
    std::chrono::steady_clock::time_point last_write_;
    Hub::Token hub_token_ = 0;
    StreamRegistry::Token registry_token_ = 0;
    std::shared_ptr<WatchStream> self_;
};

}  // namespace courthand::server::service
