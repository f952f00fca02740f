// What every stream that the server writes shares: it is registered, has one write in flight, ends
// when that is done, and lives until gRPC lets it go.
#pragma once

#include <grpcpp/grpcpp.h>

#include <memory>
#include <mutex>
#include <optional>
#include <utility>

#include "server/service/message_size.h"
#include "server/service/status_map.h"
#include "server/service/stream_registry.h"

namespace courthand::server::service {

/// A stream that is turned away.
template <class Response>
class RefusedStream final : public grpc::ServerWriteReactor<Response> {
  public:
    explicit RefusedStream(grpc::Status status) { this->Finish(std::move(status)); }
    void OnDone() override { delete this; }
};

template <class Response>
class ServerStream : public grpc::ServerWriteReactor<Response> {
  public:
    void OnWriteDone(bool ok) final {
        const std::scoped_lock lock{mutex_};
        writing_ = false;
        if (finished_) return;
        if (!ok) return finish({grpc::StatusCode::CANCELLED, "the device has gone"});
        if (end_) return finish(*end_);
        go_on();
    }
    void OnCancel() final { end({grpc::StatusCode::CANCELLED, "cancelled by the device"}); }
    void OnDone() final {
        stop_listening();
        if (token_ != 0) streams_.remove(token_);
        // Dropped outside the lock: a job of the work queue may hold the last reference.
        std::shared_ptr<ServerStream> self;
        const std::scoped_lock lock{mutex_};
        self.swap(self_);
    }

  protected:
    explicit ServerStream(StreamRegistry& streams) : streams_{streams} {}

    /// Begins the stream of a call, which keeps it alive; false when it is refused, and ends so.
    /// Not under the lock: the registry calls back under a lock of its own. gRPC does nothing
    /// before the handler has returned the reactor. `context` lives until it is done.
    [[nodiscard]] bool enter(std::shared_ptr<ServerStream> self,
                             const StreamRegistry::Opener& opener,
                             grpc::CallbackServerContext& context) {
        {
            const std::scoped_lock lock{mutex_};
            self_ = std::move(self);
        }
        const auto added = streams_.add(
            opener, [this](const Status& why) { end(to_grpc(why)); },
            [&context] { context.TryCancel(); });
        token_ = added.token;
        if (token_ == 0) {
            end(to_grpc(added.refusal));
            return false;
        }
        // The device learns at once that it is connected.
        this->StartSendInitialMetadata();
        return true;
    }

    // These need the lock.
    /// After a write: what comes next.
    virtual void go_on() = 0;
    /// A job of this stream is under way somewhere; it comes back and looks whether to go on.
    [[nodiscard]] virtual bool job_under_way() const { return false; }
    [[nodiscard]] bool idle() const noexcept {
        return !writing_ && !finished_ && !end_ && !job_under_way();
    }
    [[nodiscard]] bool finished() const noexcept { return finished_; }
    /// Why it should end, once it can.
    [[nodiscard]] const std::optional<grpc::Status>& ending() const noexcept { return end_; }
    /// `response` stays as it is until `go_on`. One that no device could take ends the stream.
    void write(const Response& response) {
        if (const Status fits = check_answer(response); !fits.ok()) return finish(to_grpc(fits));
        writing_ = true;
        this->StartWrite(&response);
    }
    void finish(grpc::Status status) {
        if (std::exchange(finished_, true)) return;
        this->Finish(std::move(status));
    }

    /// The last that is called; without the lock, which whoever it listened to may hold for others.
    virtual void stop_listening() = 0;

    [[nodiscard]] const std::shared_ptr<ServerStream>& self() const noexcept { return self_; }
    std::mutex& mutex() noexcept { return mutex_; }

  private:
    // A write or a job under way comes back and finds it.
    void end(grpc::Status status) {
        const std::scoped_lock lock{mutex_};
        if (finished_ || end_) return;
        end_ = std::move(status);
        if (!writing_ && !job_under_way()) finish(*end_);
    }

    StreamRegistry& streams_;
    std::mutex mutex_;
    bool writing_ = false;
    bool finished_ = false;
    std::optional<grpc::Status> end_;  ///< finish with it when nothing is under way
    StreamRegistry::Token token_ = 0;
    std::shared_ptr<ServerStream> self_;
};

}  // namespace courthand::server::service
