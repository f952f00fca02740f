// Goes through an event script line by line: applies its facts and checks its expectations.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/event_script/event_script.h"

namespace courthand::event {

/// An expectation that does not hold.
struct Failure {
    std::uint32_t line = 0;
    std::string expected;  ///< as canonical script line
    std::string found;
};

class EventReplay {
  public:
    /// The script must outlive the replay.
    explicit EventReplay(const EventScript& script) : script_{script} {}

    /// Goes one line further; false when there is none left.
    bool next();

    [[nodiscard]] const EventLine& line() const { return script_.lines[next_ - 1]; }
    [[nodiscard]] const TournamentState& state() const noexcept { return state_; }
    /// What the last fact could not bring about, or why no server would keep it.
    [[nodiscard]] std::optional<Finding> finding() const;
    /// For an expectation that does not hold: what is instead. Otherwise empty.
    [[nodiscard]] const std::string& found() const noexcept { return found_; }

  private:
    const EventScript& script_;
    std::size_t next_ = 0;
    TournamentState state_;
    std::optional<Finding> objection_;  ///< to the last fact
    std::string found_;
};

/// Every expectation of a script that does not hold, in order.
[[nodiscard]] std::vector<Failure> failures(const EventScript& script);

}  // namespace courthand::event
