// A unary call whose answer may wait for the database: it is worked out on the work queue, so that
// no thread of the network ever waits.
#pragma once

#include <grpcpp/grpcpp.h>

#include <utility>
#include <variant>

#include "server/domain/work_queue.h"
#include "server/service/status_map.h"

namespace courthand::server::service {

/// `body` answers `std::variant<Response, grpc::Status>`; it runs once, while request and response
/// live. A StoreFailure it lets out becomes the status of the call.
template <class Response, class Body>
grpc::ServerUnaryReactor* work_call(WorkQueue& work, grpc::CallbackServerContext* context,
                                    Response* response, Body body) {
    grpc::ServerUnaryReactor* const reactor = context->DefaultReactor();
    const bool taken = work.submit([reactor, response, body = std::move(body)] {
        try {
            std::variant<Response, grpc::Status> answer = body();
            if (auto* status = std::get_if<grpc::Status>(&answer)) return reactor->Finish(*status);
            *response = std::get<Response>(std::move(answer));
            reactor->Finish(grpc::Status::OK);
        } catch (const StoreFailure& failure) {
            reactor->Finish(to_grpc(failure.status()));
        }
    });
    if (!taken) {
        context->AddTrailingMetadata(retry_metadata_key, retry_after_ms);
        reactor->Finish(to_grpc(overloaded()));
    }
    return reactor;
}

}  // namespace courthand::server::service
