// The watch of a court: begins it, begins it again after an end or a silence, and holds what came
// in until it is stored.
//
// `keep`, `done` and `stop` on the engine's thread; the courier's threads bring the steps.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>

#include "client/sync/back_off.h"
#include "client/sync/courier.h"

namespace courthand::client {

class WatchLine {
  public:
    using Clock = std::chrono::steady_clock;
    /// Steps that may wait to be stored; more, and the watch begins again from its cursor.
    static constexpr std::size_t most_waiting_steps = 1000;
    /// A watch that stands for so long was not refused, even if it has brought nothing: an answer
    /// of the server takes a small part of that.
    static constexpr std::chrono::milliseconds not_refused_after{1000};

    struct Options {
        /// A server that says nothing for so long, not even a bookmark, is taken for dead.
        std::chrono::milliseconds longest_silence{14000};
        std::function<Clock::time_point()> now = Clock::now;
        /// Pauses between watches of which none lasts.
        BackOff::Bounds back_off{};
        std::uint64_t seed = 0;
    };
    /// `woken` is called on a thread of the courier whenever there is something to do.
    WatchLine(Courier& courier, Options options, std::function<void()> woken);

    /// Begins the watch when it does not run. An error once after each end or silence; a later call
    /// begins anew: the next one, or after a pause when the watch before has not lasted either.
    [[nodiscard]] std::optional<CallError> keep(std::uint32_t court, const std::string& cursor);
    /// What came in, oldest first; stays until `done`.
    [[nodiscard]] std::deque<v1::WatchResponse> steps() const;
    void done(std::size_t count);
    void stop();
    [[nodiscard]] bool running() const;
    /// Why the last watch ended, until the next one has brought something or stands.
    [[nodiscard]] std::optional<CallError> fault() const;
    /// Until `keep` has to be called again: how long the present silence may last yet, or the
    /// present pause.
    [[nodiscard]] std::chrono::milliseconds time_left() const;

  private:
    [[nodiscard]] std::optional<CallError> end_of_watch();
    [[nodiscard]] std::optional<CallError> ended(CallError end);
    [[nodiscard]] bool due() const;
    void take(v1::WatchResponse step);
    void begin(std::uint32_t court, const std::string& cursor);

    Courier& courier_;
    const Options options_;
    const std::function<void()> woken_;
    mutable std::mutex mutex_;
    // All below is guarded by mutex_.
    bool running_ = false;
    bool overflow_ = false;
    std::optional<CallError> end_;
    Clock::time_point heard_{};
    Clock::time_point begun_{};
    Clock::time_point not_before_{};  ///< a watch begins no earlier
    bool lasted_ = true;              ///< the one before the present one did
    BackOff back_off_;
    std::optional<CallError> fault_;
    std::deque<v1::WatchResponse> steps_;
};

}  // namespace courthand::client
