// The tournament's record in memory: the twin of the network client, for tests and screens without
// server. It decides by the same core, so what is kept, had or overtaken there is so here.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "venue/event_source.h"

namespace courthand::venue {

/// Answers at once, on the caller's thread: the new book first, then the answer. Thread-safe; a
/// listener must not call it.
class MemoryEvent final : public EventSource {
  public:
    explicit MemoryEvent(const std::vector<event::Said>& facts = {});

    void start(Listener listener) override;
    void stop() override;
    void preview(const EventAct& act, ActAnswer answer) override;
    void act(const EventAct& act, ActAnswer answer) override;
    void erase_words(const std::vector<event::FactNumber>& facts, Answer answer) override;

    /// Somebody else acts.
    void say(const std::vector<event::Said>& facts);
    void show(const Link& link);
    /// More of the record is on its way, or is no longer.
    void show_whole(bool whole);
    /// The next act, preview or erasing fails with this sentence, and does nothing.
    void fail_next(std::string problem);
    /// Somebody else says this just before the next act, which is overtaken whatever it is.
    void overtake_next(std::vector<event::Said> by_facts = {});

    [[nodiscard]] EventBook book() const;
    /// Every act that was kept, in order.
    [[nodiscard]] std::vector<EventAct> kept() const;

  private:
    // These need the lock.
    void fold_in(const std::vector<event::Said>& facts, const std::vector<Id>& ids = {});
    [[nodiscard]] std::optional<ActOutcome> settled(const EventAct& act) const;
    [[nodiscard]] ActOutcome decide(const EventAct& act) const;
    [[nodiscard]] ActOutcome do_act(const EventAct& act);
    void tell() const;

    mutable std::mutex mutex_;
    EventBook book_;
    std::map<Id, event::FactNumber> numbers_;  ///< of facts that this seat has said
    std::vector<EventAct> kept_;
    std::string problem_;
    std::optional<std::vector<event::Said>> overtakes_;
    Listener listener_;
};

}  // namespace courthand::venue
