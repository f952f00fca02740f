// Where a seat gets the tournament's record and takes its acts. Implemented over the network
// (event_client.h) and in memory (memory_event.h).
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "venue/event_book.h"
#include "venue/link.h"

namespace courthand::venue {

/// Callbacks may come on any thread and are never made after `stop` has returned.
class EventSource {
  public:
    struct Listener {
        std::function<void(const EventBook&)> book;
        std::function<void(const Link&)> link;
    };
    using ActAnswer = std::function<void(const ActOutcome&)>;

    EventSource() = default;
    EventSource(const EventSource&) = delete;
    EventSource& operator=(const EventSource&) = delete;
    virtual ~EventSource() = default;

    virtual void start(Listener listener) = 0;
    virtual void stop() = 0;

    /// What the act would do.
    virtual void preview(const EventAct& act, ActAnswer answer) = 0;
    virtual void act(const EventAct& act, ActAnswer answer) = 0;
    /// Takes the words beside these facts away for good.
    virtual void erase_words(const std::vector<event::FactNumber>& facts, Answer answer) = 0;
};

}  // namespace courthand::venue
