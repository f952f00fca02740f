// The record in memory behind a slow or broken line: an act is done, its answer is kept back or
// lost.
#pragma once

#include <functional>
#include <utility>
#include <vector>

#include "venue/memory_event.h"

namespace courthand::tests {

/// On one thread, as a test is.
class HeldEvent final : public venue::EventSource {
  public:
    explicit HeldEvent(venue::MemoryEvent& record) : record_(record) {}

    void start(Listener listener) override { record_.start(std::move(listener)); }
    void stop() override { record_.stop(); }
    void preview(const venue::EventAct& act, ActAnswer answer) override {
        record_.preview(act, std::move(answer));
    }
    void act(const venue::EventAct& act, ActAnswer answer) override {
        record_.act(act, [&](const venue::ActOutcome& outcome) {
            if (std::exchange(lose_, false)) {
                venue::ActOutcome lost;
                lost.problem = "The server did not answer.";
                answer(lost);
            } else if (hold_) {
                held_.push_back([answer, outcome] { answer(outcome); });
            } else {
                answer(outcome);
            }
        });
    }
    void erase_words(const std::vector<event::FactNumber>& facts, venue::Answer answer) override {
        record_.erase_words(facts, std::move(answer));
    }

    /// Answers to acts are kept back from now on.
    void hold() { hold_ = true; }
    void release() {
        hold_ = false;
        for (const auto& answer : std::exchange(held_, {})) answer();
    }
    /// The next act is done, and nobody is told.
    void lose_next() { lose_ = true; }

  private:
    venue::MemoryEvent& record_;
    bool hold_ = false;
    bool lose_ = false;
    std::vector<std::function<void()>> held_;
};

}  // namespace courthand::tests
