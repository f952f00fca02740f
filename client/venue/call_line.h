// A thread that makes one call after the other, in the order in which they were asked for.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>

namespace courthand::venue {

class CallLine {
  public:
    using Call = std::function<void()>;
    /// A person cannot have more wishes open than this; beyond it something is wrong.
    static constexpr std::size_t most_waiting = 32;

    CallLine();
    /// Finishes the call that is being made and forgets the others.
    ~CallLine();
    CallLine(const CallLine&) = delete;
    CallLine& operator=(const CallLine&) = delete;

    /// False when too many wait, or when it has stopped: the call will not be made.
    [[nodiscard]] bool add(Call call);
    void stop();

  private:
    void work();

    std::mutex mutex_;
    std::condition_variable news_;
    std::deque<Call> waiting_;  ///< guarded by mutex_
    bool stopped_ = false;      ///< guarded by mutex_
    std::thread thread_;
};

}  // namespace courthand::venue
