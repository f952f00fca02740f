#include "venue/open_calls.h"

#include <grpcpp/client_context.h>

#include <algorithm>

namespace courthand::venue {

OpenCalls::Call::Call(OpenCalls& calls, grpc::ClientContext& context)
    : calls_(calls), context_(context) {
    const std::scoped_lock lock{calls_.mutex_};
    calls_.calls_.push_back(&context_);
    // gRPC remembers it: the call ends as soon as it begins.
    if (calls_.closed_) context_.TryCancel();
}

OpenCalls::Call::~Call() {
    const std::scoped_lock lock{calls_.mutex_};
    auto& all = calls_.calls_;
    all.erase(std::remove(all.begin(), all.end(), &context_), all.end());
}

void OpenCalls::close() {
    const std::scoped_lock lock{mutex_};
    closed_ = true;
    for (grpc::ClientContext* call : calls_) call->TryCancel();
}

void OpenCalls::open() {
    const std::scoped_lock lock{mutex_};
    closed_ = false;
}

}  // namespace courthand::venue
