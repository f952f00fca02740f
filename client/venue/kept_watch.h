// A stream of the server that a seat keeps open: it comes back by itself after a loss, and one that
// has fallen silent is ended.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

#include "sync/back_off.h"
#include "venue/link.h"

namespace grpc {
class Channel;
class ClientContext;
class Status;
}  // namespace grpc

namespace courthand::venue {

/// One thread reads the stream, one sees to it that it does not fall silent.
class KeptWatch {
  public:
    using Clock = std::chrono::steady_clock;
    struct Options {
        /// Spreads the tries of several devices: a number of its own for each. 0: one by chance.
        std::uint64_t seed = 0;
        client::BackOff::Bounds back_off{std::chrono::milliseconds{200},
                                         std::chrono::milliseconds{2000}};
        /// A server that says nothing for so long, not even that it lives, is taken for dead.
        std::chrono::milliseconds longest_silence{14000};
        std::function<Clock::time_point()> now = Clock::now;
    };
    /// Opens one stream with the context and reads it to its end, saying `heard` of each message.
    /// DATA_LOSS, as a refusal, is tried again rarely: a person must do something first.
    using Read = std::function<grpc::Status(grpc::ClientContext&)>;
    /// How the stream ended, or that the server was not reached.
    using TellLink = std::function<void(const Link&)>;

    KeptWatch(std::shared_ptr<grpc::Channel> channel, Options options, Read read, TellLink ended);
    ~KeptWatch();
    KeptWatch(const KeptWatch&) = delete;
    KeptWatch& operator=(const KeptWatch&) = delete;

    void start();
    /// After it returned neither `read` nor `ended` runs.
    void stop();
    /// From `read`: the server has said something. With progress, a loss is followed by a quick
    /// try.
    void heard(bool progress);

  private:
    void watch();
    void watch_silence();
    [[nodiscard]] bool given_up();
    [[nodiscard]] grpc::Status read_once();
    void begin_reading(grpc::ClientContext& context);
    /// True when the stream was ended for its silence.
    [[nodiscard]] bool end_reading();

    const std::shared_ptr<grpc::Channel> channel_;
    Options options_;
    const Read read_;
    const TellLink ended_;

    std::mutex mutex_;
    std::condition_variable stop_news_;
    bool stopped_ = true;                     ///< guarded by mutex_
    grpc::ClientContext* reading_ = nullptr;  ///< guarded by mutex_; of the stream that is open
    Clock::time_point heard_;                 ///< guarded by mutex_; when it last said something
    bool silent_ = false;                     ///< guarded by mutex_; it was ended for its silence
    bool progress_ = false;                   ///< guarded by mutex_; since it was opened

    std::thread reader_;
    std::thread listener_;
};

}  // namespace courthand::venue
