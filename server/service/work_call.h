// A unary call whose answer may wait for the database: it is worked out on the work queue, so that
// no thread of the network ever waits.
#pragma once

#include <grpcpp/grpcpp.h>

#include <string>
#include <utility>
#include <variant>

#include "server/auth/call_gate.h"
#include "server/domain/fault_log.h"
#include "server/domain/work_queue.h"
#include "server/service/status_map.h"
#include "server/service/stream_registry.h"

namespace courthand::server::service {

/// Ends a call; a busy server says when to come back.
inline void finish_call(grpc::CallbackServerContext* context, grpc::ServerUnaryReactor* reactor,
                        const grpc::Status& status) {
    if (status.error_code() == grpc::StatusCode::RESOURCE_EXHAUSTED)
        context->AddTrailingMetadata(retry_metadata_key, retry_after_ms);
    reactor->Finish(status);
}

inline const grpc::Status& grpc_status(const grpc::Status& status) {
    return status;
}
inline grpc::Status grpc_status(const Status& status) {
    return to_grpc(status);
}

/// `body` answers `std::variant<Response, grpc::Status>` or `std::variant<Response, Status>`; it
/// runs once, while request and response live, unless the caller has gone by then. A StoreFailure
/// it lets out becomes the status of the call; any other exception costs this call and a line of
/// the log.
template <class Response, class Body>
grpc::ServerUnaryReactor* work_call(WorkQueue& work, grpc::CallbackServerContext* context,
                                    Response* response, Body body, Lane lane = Lane::writes) {
    grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
    const bool taken = work.submit(lane, [context, reactor, response, body = std::move(body)] {
        if (context->IsCancelled())
            return reactor->Finish({grpc::StatusCode::CANCELLED, "the caller has gone"});
        grpc::Status status;
        try {
            auto answer = body();
            if (auto* good = std::get_if<Response>(&answer))
                *response = std::move(*good);
            else
                status = grpc_status(std::get<1>(answer));
        } catch (const StoreFailure& failure) {
            status = to_grpc(failure.status());
        } catch (...) {
            log_current_exception("a call");
            status = to_grpc(own_fault());
        }
        finish_call(context, reactor, status);
    });
    if (!taken) finish_call(context, reactor, to_grpc(overloaded()));
    return reactor;
}

/// The same for a device: a call beyond the connections that a device may use is refused. `parts`
/// are those of its service.
template <class Parts, class Response, class Body>
grpc::ServerUnaryReactor* device_call(const Parts& parts, grpc::CallbackServerContext* context,
                                      Response* response, Body body, Lane lane = Lane::writes) {
    const auto who = auth::caller(*context->auth_context());
    auto entered =
        parts.streams.connections().enter(who ? who->device : DeviceId{}, context->peer());
    if (const auto* refusal = std::get_if<grpc::Status>(&entered)) {
        grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
        finish_call(context, reactor, *refusal);
        return reactor;
    }
    return work_call(
        parts.work, context, response,
        [place = std::get<0>(std::move(entered)), body = std::move(body)] { return body(); }, lane);
}

}  // namespace courthand::server::service
