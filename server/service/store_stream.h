// A stream whose session asks for its store now and then: the session says what comes next, and the
// reading is a job of the work queue, because it may wait. One thing at a time: while a job reads
// or a write is under way nothing else is asked of the session.
#pragma once

#include <grpcpp/grpcpp.h>

#include <memory>
#include <utility>

#include "server/domain/fault_log.h"
#include "server/domain/work_queue.h"
#include "server/service/server_stream.h"
#include "server/service/status_map.h"

namespace courthand::server::service {

template <class Response>
class StoreStream : public ServerStream<Response> {
  protected:
    /// `name` is what a fault of a job is told as.
    StoreStream(StreamRegistry& streams, WorkQueue& work, const char* name)
        : ServerStream<Response>{streams}, work_{work}, name_{name} {}

    // These need the lock.
    /// Asks the session what comes next, and does it: writes, waits, or reads with `read_store`.
    virtual void advance() = 0;
    /// Goes on, or ends when it should.
    void pump() {
        if (this->ending()) return this->finish(*this->ending());
        advance();
    }
    void go_on() override { pump(); }
    [[nodiscard]] bool job_under_way() const final { return reading_; }
    /// `read` runs as a job, without the lock; then the stream goes on, or ends with its status.
    template <class Read>
    void read_store(Read read) {
        reading_ = true;
        const bool taken =
            work_.submit(Lane::catch_up, [this, read = std::move(read), self = this->self()] {
                const Status status = guarded(read);
                const std::scoped_lock lock{this->mutex()};
                reading_ = false;
                if (this->finished()) return;
                if (!status.ok()) return this->finish(to_grpc(status));
                pump();
            });
        if (taken) return;
        reading_ = false;
        this->finish(to_grpc(overloaded()));
    }

  private:
    template <class Read>
    Status guarded(const Read& read) const {
        try {
            return read();
        } catch (...) {
            log_current_exception(name_);
            return own_fault();
        }
    }

    WorkQueue& work_;
    const char* const name_;
    bool reading_ = false;
};

}  // namespace courthand::server::service
