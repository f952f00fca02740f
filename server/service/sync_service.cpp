#include "server/service/sync_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/sync.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/service/match_calls.h"
#include "server/service/push_call.h"
#include "server/service/push_stream.h"
#include "server/service/status_map.h"
#include "server/service/watch_stream.h"

namespace courthand::server::service {
namespace {

std::optional<auth::Caller> caller_of(const grpc::CallbackServerContext& context) {
    return auth::caller(*context.auth_context());
}

void finish(grpc::CallbackServerContext* context, grpc::ServerUnaryReactor* reactor,
            const Status& status) {
    if (status.code == StatusCode::exhausted)
        context->AddTrailingMetadata(retry_metadata_key, retry_after_ms);
    reactor->Finish(to_grpc(status));
}

class SyncService final : public v1::Sync::CallbackService {
  public:
    explicit SyncService(SyncParts parts)
        : hold_{std::make_shared<const SyncParts>(std::move(parts))}, parts_{*hold_} {}

    grpc::ServerUnaryReactor* Push(grpc::CallbackServerContext* context,
                                   const v1::PushRequest* request,
                                   v1::PushResponse* response) override {
        grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
        (void)seen(*context);
        push(parts_, *request, [=](std::variant<v1::PushResponse, Status> answer) {
            if (const auto* status = std::get_if<Status>(&answer))
                return finish(context, reactor, *status);
            *response = std::get<v1::PushResponse>(std::move(answer));
            reactor->Finish(grpc::Status::OK);
        });
        return reactor;
    }

    grpc::ServerBidiReactor<v1::PushRequest, v1::PushResponse>* PushStream(
        grpc::CallbackServerContext* context) override {
        return service::PushStream::make(hold_, seen(*context));
    }

    grpc::ServerWriteReactor<v1::WatchResponse>* Watch(grpc::CallbackServerContext* context,
                                                       const v1::WatchRequest* request) override {
        auto wish = watch_wish(*request);
        if (const auto* why = std::get_if<Status>(&wish)) return new Refused{to_grpc(*why)};
        return WatchStream::make(hold_, std::get<WatchWish>(std::move(wish)), seen(*context));
    }

    grpc::ServerUnaryReactor* GrantWriter(grpc::CallbackServerContext* context,
                                          const v1::GrantWriterRequest* request,
                                          v1::GrantWriterResponse* response) override {
        const auto who = caller_of(*context);
        (void)seen(*context);
        return later(context, response, [this, request, who] {
            return grant_writer(parts_, who ? who->device : DeviceId{}, *request);
        });
    }

    grpc::ServerUnaryReactor* FetchMatch(grpc::CallbackServerContext* context,
                                         const v1::FetchMatchRequest* request,
                                         v1::FetchMatchResponse* response) override {
        (void)seen(*context);
        return later(context, response, [this, request] { return fetch_match(parts_, *request); });
    }

  private:
    /// A stream that is turned away.
    class Refused final : public grpc::ServerWriteReactor<v1::WatchResponse> {
      public:
        explicit Refused(grpc::Status status) { Finish(std::move(status)); }
        void OnDone() override { delete this; }
    };

    std::optional<DeviceSeen> seen(const grpc::CallbackServerContext& context) {
        const auto who = caller_of(context);
        if (!who) return std::nullopt;
        const DeviceSeen device{parts_.tournament, who->device, who->court,
                                std::chrono::system_clock::now()};
        parts_.presence.seen(device);
        return device;
    }

    /// Runs `body` on the work queue and answers with what it gives.
    template <class Response, class Body>
    grpc::ServerUnaryReactor* later(grpc::CallbackServerContext* context, Response* response,
                                    Body body) {
        grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
        const bool taken = parts_.work.submit([=] {
            try {
                std::variant<Response, Status> answer = body();
                if (const auto* status = std::get_if<Status>(&answer))
                    return finish(context, reactor, *status);
                *response = std::get<Response>(std::move(answer));
                reactor->Finish(grpc::Status::OK);
            } catch (const StoreFailure& failure) {
                finish(context, reactor, failure.status());
            }
        });
        if (!taken) finish(context, reactor, overloaded());
        return reactor;
    }

    std::shared_ptr<const SyncParts> hold_;
    const SyncParts& parts_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_sync_service(SyncParts parts) {
    return std::make_unique<SyncService>(std::move(parts));
}

}  // namespace courthand::server::service
