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

    static PushStream* make(std::shared_ptr<const SyncParts> parts,
                            std::optional<DeviceSeen> device);

    void OnReadDone(bool ok) override;
    void OnWriteDone(bool ok) override;
    void OnCancel() override;
    void OnDone() override;

  private:
    using Slot = std::shared_ptr<std::optional<std::variant<v1::PushResponse, Status>>>;

    PushStream(std::shared_ptr<const SyncParts> parts, std::optional<DeviceSeen> device)
        : hold_{std::move(parts)}, parts_{*hold_}, device_{device} {}
    void begin(std::shared_ptr<PushStream> self);
    void answered(const Slot& slot, std::variant<v1::PushResponse, Status> answer);
    /// All need the lock.
    void write_next();
    void read_next();
    void finish(grpc::Status status);

    std::shared_ptr<const SyncParts> hold_;  ///< jobs may outlive the service
    const SyncParts& parts_;
    std::optional<DeviceSeen> device_;
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
