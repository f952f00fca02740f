// The board over the network: watches, reconnects by itself, and carries the acts of an official.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "sync/back_off.h"
#include "venue/board_source.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

/// One thread reads the stream, one sees to it that it does not fall silent, one makes the calls.
/// After a loss it goes on from its cursor, and the last board stays with the listener.
class BoardClient final : public BoardSource {
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
    /// `own_name` is what others read when this seat claims an alert: a name or a function.
    BoardClient(std::shared_ptr<grpc::Channel> channel, std::string own_name, Options options);
    BoardClient(std::shared_ptr<grpc::Channel> channel, std::string own_name);
    ~BoardClient() override;

    void start(Listener listener) override;
    void stop() override;
    void claim(const std::string& alert_id, Answer answer) override;
    void acknowledge(const std::string& alert_id, Answer answer) override;
    void rule(const std::string& alert_id, RulingChoice choice, const std::string& note,
              Answer answer) override;
    void shelve(const std::string& alert_id, std::chrono::minutes time, const std::string& reason,
                Answer answer) override;
    void answer_take_over(const Id& match_id, const Id& device_id, bool consent,
                          Answer answer) override;
    void look_at_fork(const std::string& alert_id, ForkAnswer answer) override;
    void settle_fork(const std::string& alert_id, ForkChoice choice, const std::string& note,
                     Answer answer) override;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::venue
