// Pushes on one stream; answers come in the order of the requests.
#pragma once

#include <grpcpp/support/server_callback.h>

#include <deque>
#include <memory>
#include <mutex>
#include <optional>
#include <variant>

#include "courthand/v1/sync.pb.h"
#include "server/service/sync_parts.h"

namespace courthand::server::service {

class PushStream final : public grpc::ServerBidiReactor<v1::PushRequest, v1::PushResponse> {
  public:
    /// Requests that may be under way at once; further ones wait in the network.
    static constexpr std::size_t most_under_way = 16;

    /// `context` of the call lives until the reactor is done.
    static PushStream* make(std::shared_ptr<const SyncParts> parts, const auth::Caller& who,
                            grpc::CallbackServerContext& context);

    void OnReadDone(bool ok) override;
    void OnWriteDone(bool ok) override;
    void OnCancel() override;
    void OnDone() override;

  private:
    using Slot = std::shared_ptr<std::optional<std::variant<v1::PushResponse, Status>>>;

    PushStream(std::shared_ptr<const SyncParts> parts, const auth::Caller& who)
        : hold_{std::move(parts)}, parts_{*hold_}, who_{who} {}
    void begin(std::shared_ptr<PushStream> self, grpc::CallbackServerContext& context);
    void answered(const Slot& slot, std::variant<v1::PushResponse, Status> answer);
    /// All need the lock.
    void write_next();
    void read_next();
    void finish(grpc::Status status);

    std::shared_ptr<const SyncParts> hold_;  ///< jobs may outlive the service
    const SyncParts& parts_;
    const auth::Caller who_;
    std::mutex mutex_;
    v1::PushRequest request_;
    v1::PushResponse response_;
    std::deque<Slot> under_way_;
    bool reading_ = false;
    bool writing_ = false;
    bool reads_ended_ = false;
    bool finished_ = false;
    StreamRegistry::Token registry_token_ = 0;
    std::shared_ptr<PushStream> self_;
};

}  // namespace courthand::server::service
