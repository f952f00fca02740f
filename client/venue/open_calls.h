// The calls that a client of a seat has under way, so that a window that is closed waits for none.
#pragma once

#include <mutex>
#include <vector>

namespace grpc {
class ClientContext;
}

namespace courthand::venue {

/// Thread-safe.
class OpenCalls {
  public:
    /// A call from its beginning to its end. What is begun after `close` is cancelled at once.
    class Call {
      public:
        Call(OpenCalls& calls, grpc::ClientContext& context);
        Call(const Call&) = delete;
        Call& operator=(const Call&) = delete;
        ~Call();

      private:
        OpenCalls& calls_;
        grpc::ClientContext& context_;
    };

    /// Cancels all that are open, and all that are begun later.
    void close();
    /// Calls may be made again.
    void open();

  private:
    std::mutex mutex_;
    bool closed_ = false;  ///< guarded by mutex_
    std::vector<grpc::ClientContext*>
        calls_;  ///< guarded by mutex_; one for each thread of a client
};

}  // namespace courthand::venue
