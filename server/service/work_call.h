// A unary call whose answer may wait for the database: it is worked out on the work queue, so that
// no thread of the network ever waits.
#pragma once

#include <grpcpp/grpcpp.h>

#include <utility>

#include "server/auth/call_gate.h"
#include "server/domain/fault_log.h"
#include "server/domain/work_queue.h"
#include "server/service/message_size.h"
#include "server/service/status_map.h"
#include "server/service/stream_registry.h"

namespace courthand::server::service {

/// Ends a call; a busy server says when to come back.
inline void finish_call(grpc::CallbackServerContext* context, grpc::ServerUnaryReactor* reactor,
                        const Status& status) {
    const grpc::Status told = to_grpc(status);
    if (told.error_code() == grpc::StatusCode::RESOURCE_EXHAUSTED)
        context->AddTrailingMetadata(retry_metadata_key, retry_after_ms);
    reactor->Finish(told);
}

/// The same with its answer, which must be one that a device can take.
template <class Response>
void finish_call(grpc::CallbackServerContext* context, grpc::ServerUnaryReactor* reactor,
                 Result<Response> answer, Response* response) {
    Status status = answer.status();
    if (status.ok()) status = check_answer(*answer);
    if (status.ok()) *response = *std::move(answer);
    finish_call(context, reactor, status);
}

/// Refuses a call before anything is done for it.
inline grpc::ServerUnaryReactor* refuse_call(grpc::CallbackServerContext* context,
                                             const Status& why) {
    grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
    finish_call(context, reactor, why);
    return reactor;
}

/// `body` answers `Result<Response>`; it runs once, while request and response live, unless the
/// caller has gone by then. An exception costs this call and a line of the log.
template <class Request, class Response, class Body>
grpc::ServerUnaryReactor* work_call(WorkQueue& work, grpc::CallbackServerContext* context,
                                    const Request* request, Response* response, Body body,
                                    Lane lane = Lane::writes) {
    if (const Status fits = check_request(*request); !fits.ok()) return refuse_call(context, fits);
    grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
    const bool taken = work.submit(lane, [context, reactor, response, body = std::move(body)] {
        if (context->IsCancelled())
            return reactor->Finish({grpc::StatusCode::CANCELLED, "the caller has gone"});
        Result<Response> answer = own_fault();
        try {
            answer = body();
        } catch (...) {
            log_current_exception("a call");
        }
        finish_call(context, reactor, std::move(answer), response);
    });
    if (!taken) finish_call(context, reactor, overloaded());
    return reactor;
}

/// The same for a device: a call beyond the connections that a device may use is refused. `parts`
/// are those of its service.
template <class Parts, class Request, class Response, class Body>
grpc::ServerUnaryReactor* device_call(const Parts& parts, grpc::CallbackServerContext* context,
                                      const Request* request, Response* response, Body body,
                                      Lane lane = Lane::writes) {
    const auto who = auth::caller(*context->auth_context());
    auto entered =
        parts.streams.connections().enter(who ? who->device : DeviceId{}, context->peer());
    if (!entered.ok()) return refuse_call(context, entered.status());
    return work_call(
        parts.work, context, request, response,
        [place = *std::move(entered), body = std::move(body)] { return body(); }, lane);
}

}  // namespace courthand::server::service
