// The tournament's record over the network: watched, checked, folded here, and acted in.
#pragma once

#include <memory>
#include <string>

#include "venue/event_source.h"
#include "venue/kept_watch.h"

namespace grpc {
class Channel;
}

namespace courthand::venue {

/// One watch and one thread for the calls. After a loss the last book stays, and the watch goes on
/// from its end. A record whose chain is broken is a refused link: the book stays at the last fact
/// that holds.
class EventClient final : public EventSource {
  public:
    using Options = KeptWatch::Options;

    /// `author` is the function of the person who acts here, "desk 2"; not a name.
    EventClient(std::shared_ptr<grpc::Channel> channel, std::string author, Options options);
    EventClient(std::shared_ptr<grpc::Channel> channel, std::string author);
    ~EventClient() override;

    void start(Listener listener) override;
    void stop() override;
    void preview(const EventAct& act, ActAnswer answer) override;
    /// Asked again by itself while no answer comes: what was kept then comes back as `had`.
    void act(const EventAct& act, ActAnswer answer) override;
    void erase_words(const std::vector<event::FactNumber>& facts, Answer answer) override;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace courthand::venue
