// Calls wait on a condition instead of a completion queue: with the callback API gRPC's own threads
// keep reading, so that keepalive answers are seen while nobody waits (a blocking client would take
// its own connection for dead).
#include "client/sync/grpc_courier.h"

#include <grpcpp/client_context.h>
#include <grpcpp/support/client_callback.h>

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <utility>

#include "client/sync/call_error.h"
#include "client/sync/channel.h"
#include "courthand/v1/sync.grpc.pb.h"

namespace courthand::client {
namespace {

/// Longer than any answer of a working server takes, short enough to notice a dead one.
constexpr std::chrono::seconds call_lasts{10};

/// One watch stream. Deletes nothing itself: the courier owns it and waits for its end.
class WatchStream final : public grpc::ClientReadReactor<v1::WatchResponse> {
  public:
    WatchStream(v1::Sync::Stub& stub, const v1::WatchRequest& request,
                Courier::WatchListener listener, std::string server, std::uint32_t protocol)
        : request_{request}, listener_{std::move(listener)}, server_{std::move(server)} {
        prepare_context(context_, protocol);
        stub.async()->Watch(&context_, &request_, this);
        StartRead(&response_);
        StartCall();
    }
    void OnReadDone(bool ok) override {
        if (!ok) return;
        listener_.step(std::move(response_));
        response_ = {};
        StartRead(&response_);
    }
    void OnDone(const grpc::Status& status) override {
        CallError end = call_error(status, server_);
        if (status.ok()) end = {CallError::Kind::unreachable, "The server ended the watch."};
        listener_.ended(std::move(end));
        // Notified under the lock: the waiter may delete this object as soon as it can take it.
        const std::scoped_lock lock{mutex_};
        done_ = true;
        end_.notify_all();
    }
    void cancel_and_wait() {
        context_.TryCancel();
        std::unique_lock lock{mutex_};
        end_.wait(lock, [this] { return done_; });
    }

  private:
    grpc::ClientContext context_;
    v1::WatchRequest request_;
    v1::WatchResponse response_;
    Courier::WatchListener listener_;
    std::string server_;
    std::mutex mutex_;
    std::condition_variable end_;
    bool done_ = false;
};

class GrpcCourier final : public Courier {
  public:
    explicit GrpcCourier(const CourierOptions& options)
        : options_{options},
          stub_{v1::Sync::NewStub(make_channel(options.server, options.credentials))} {}
    ~GrpcCourier() override { stop_watch(); }

    CallResult<v1::PushResponse> push(const v1::PushRequest& request) override {
        return call<v1::PushResponse>([&](auto* context, auto* response, auto done) {
            stub_->async()->Push(context, &request, response, std::move(done));
        });
    }
    CallResult<v1::FetchMatchResponse> fetch(const v1::FetchMatchRequest& request) override {
        return call<v1::FetchMatchResponse>([&](auto* context, auto* response, auto done) {
            stub_->async()->FetchMatch(context, &request, response, std::move(done));
        });
    }
    CallResult<v1::GrantWriterResponse> grant(const v1::GrantWriterRequest& request) override {
        return call<v1::GrantWriterResponse>([&](auto* context, auto* response, auto done) {
            stub_->async()->GrantWriter(context, &request, response, std::move(done));
        });
    }
    void watch(const v1::WatchRequest& request, WatchListener listener) override {
        stop_watch();
        watch_ = std::make_unique<WatchStream>(*stub_, request, std::move(listener),
                                               options_.server, options_.protocol);
    }
    void stop_watch() override {
        if (watch_) watch_->cancel_and_wait();
        watch_.reset();
    }
    void cancel() override {
        const std::scoped_lock lock{mutex_};
        cancelled_ = true;
        if (context_ != nullptr) context_->TryCancel();
    }

  private:
    template <class Response, class Start>
    CallResult<Response> call(Start start) {
        grpc::ClientContext context;
        prepare_context(context, options_.protocol);
        context.set_deadline(std::chrono::system_clock::now() + call_lasts);
        {
            const std::scoped_lock lock{mutex_};
            if (cancelled_) return CallError{CallError::Kind::cancelled, "stopped"};
            context_ = &context;
        }
        Response response;
        std::mutex mutex;
        std::condition_variable ready;
        bool done = false;
        grpc::Status status;
        start(&context, &response, [&](grpc::Status result) {
            const std::scoped_lock lock{mutex};
            status = std::move(result);
            done = true;
            ready.notify_all();
        });
        {
            std::unique_lock lock{mutex};
            ready.wait(lock, [&done] { return done; });
        }
        const std::scoped_lock lock{mutex_};
        context_ = nullptr;
        if (!status.ok()) return call_error(status, options_.server);
        return response;
    }

    CourierOptions options_;
    std::unique_ptr<v1::Sync::Stub> stub_;
    std::unique_ptr<WatchStream> watch_;
    std::mutex mutex_;
    grpc::ClientContext* context_ = nullptr;  ///< of the call under way; guarded by mutex_
    bool cancelled_ = false;                  ///< guarded by mutex_
};

}  // namespace

std::unique_ptr<Courier> make_grpc_courier(const CourierOptions& options) {
    return std::make_unique<GrpcCourier>(options);
}

}  // namespace courthand::client
