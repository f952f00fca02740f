// One stream that is read until it ends, on the threads of gRPC.
#pragma once

#include <grpcpp/grpcpp.h>
#include <grpcpp/support/client_callback.h>

#include <functional>
#include <utility>

#include "tests/bench/secure_channel.h"

namespace courthand::bench {

/// Make it with `new`: it deletes itself after `ended`, the last that it calls. `cancel` may be
/// called until then.
template <class Request, class Response>
class StreamReader final : public grpc::ClientReadReactor<Response> {
  public:
    struct Events {
        std::function<void(const Response&)> step;
        std::function<void(const grpc::Status&)> ended;
    };

    /// `call` starts the stream: called with context, request and reactor.
    template <class Call>
    StreamReader(Request request, Events events, Call call)
        : request_{std::move(request)}, events_{std::move(events)} {
        prepare(context_);
        call(&context_, &request_, this);
        this->StartRead(&response_);
        this->StartCall();
    }
    void cancel() { context_.TryCancel(); }

    void OnReadDone(bool ok) override {
        if (!ok) return;
        events_.step(response_);
        this->StartRead(&response_);
    }
    void OnDone(const grpc::Status& status) override {
        events_.ended(status);
        delete this;
    }

  private:
    ~StreamReader() override = default;

    grpc::ClientContext context_;
    Request request_;
    Response response_;
    Events events_;
};

}  // namespace courthand::bench
