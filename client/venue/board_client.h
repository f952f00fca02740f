// The board over the network: watches, reconnects by itself, and carries the acts of an official.
#pragma once

#include <chrono>
#include <memory>
#include <string>

#include "venue/board_source.h"
#include "venue/kept_watch.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

/// One watch, and one thread that makes the calls.
/// After a loss it goes on from its cursor, and the last board stays with the listener.
class BoardClient final : public BoardSource {
  public:
    using Clock = KeptWatch::Clock;
    using Options = KeptWatch::Options;
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
