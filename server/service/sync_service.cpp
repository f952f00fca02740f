#include "server/service/sync_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/sync.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/service/match_calls.h"
#include "server/service/push_call.h"
#include "server/service/server_stream.h"
#include "server/service/status_map.h"
#include "server/service/watch_stream.h"
#include "server/service/work_call.h"

namespace courthand::server::service {
namespace {

/// The gate lets nobody without a certificate come here; should it ever, nothing is his.
auth::Caller caller_of(const grpc::CallbackServerContext& context) {
    return auth::caller(*context.auth_context()).value_or(auth::Caller{});
}

class SyncService final : public v1::Sync::CallbackService {
  public:
    explicit SyncService(SyncParts parts)
        : hold_{std::make_shared<const SyncParts>(std::move(parts))}, parts_{*hold_} {}

    grpc::ServerUnaryReactor* Push(grpc::CallbackServerContext* context,
                                   const v1::PushRequest* request,
                                   v1::PushResponse* response) override {
        const auth::Caller who = seen(*context);
        auto entered = parts_.streams.connections().enter(who.device, context->peer());
        if (!entered.ok()) return refuse_call(context, entered.status());
        if (const Status fits = check_request(*request); !fits.ok())
            return refuse_call(context, fits);
        grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
        push(parts_, who, *request,
             [=, place = *std::move(entered)](Result<v1::PushResponse> answer) {
                 (void)place;  // until it is answered
                 finish_call(context, reactor, std::move(answer), response);
             });
        return reactor;
    }

    grpc::ServerWriteReactor<v1::WatchResponse>* Watch(grpc::CallbackServerContext* context,
                                                       const v1::WatchRequest* request) override {
        using Refused = RefusedStream<v1::WatchResponse>;
        if (const Status fits = check_request(*request); !fits.ok())
            return new Refused{to_grpc(fits)};
        auto wish = watch_wish(*request);
        if (!wish.ok()) return new Refused{to_grpc(wish.status())};
        const auth::Caller who = seen(*context);
        WatchWish& wanted = *wish;
        if (who.seat == auth::Seat::table) wanted.table = who.device;
        if (!may_watch(who, wanted.watched)) return new Refused{to_grpc(refused(who, wanted))};
        return WatchStream::make(hold_, std::move(wanted), who, *context);
    }

    grpc::ServerUnaryReactor* GrantWriter(grpc::CallbackServerContext* context,
                                          const v1::GrantWriterRequest* request,
                                          v1::GrantWriterResponse* response) override {
        return device_call(
            parts_, context, request, response,
            [this, request, who = seen(*context)] { return grant_writer(parts_, who, *request); },
            Lane::writes);
    }

    grpc::ServerUnaryReactor* FetchMatch(grpc::CallbackServerContext* context,
                                         const v1::FetchMatchRequest* request,
                                         v1::FetchMatchResponse* response) override {
        return device_call(
            parts_, context, request, response,
            [this, request, who = seen(*context)] { return fetch_match(parts_, who, *request); },
            Lane::catch_up);
    }

  private:
    /// A single match is looked at by the stream, which may wait for the database.
    static bool may_watch(const auth::Caller& who, const Watched& watched) {
        if (who.seat != auth::Seat::table || std::holds_alternative<MatchId>(watched)) return true;
        const auto* court = std::get_if<WatchedCourt>(&watched);
        return court != nullptr && court->court == who.court;
    }

    Status refused(const auth::Caller& who, const WatchWish& wish) {
        const auto* court = std::get_if<WatchedCourt>(&wish.watched);
        const Status why = another_court(who);
        parts_.audit.refused(
            to_text(who.device),
            {0, {}, who, "watch", "court " + std::to_string(court->court), why.text(), true});
        return why;
    }

    auth::Caller seen(const grpc::CallbackServerContext& context) {
        const auth::Caller who = caller_of(context);
        if (!who.device.nil())
            parts_.presence.seen(
                {parts_.tournament, who.device, who.court, std::chrono::system_clock::now()});
        return who;
    }

    std::shared_ptr<const SyncParts> hold_;
    const SyncParts& parts_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_sync_service(SyncParts parts) {
    return std::make_unique<SyncService>(std::move(parts));
}

}  // namespace courthand::server::service
