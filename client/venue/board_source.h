// Where a head seat gets its board and takes its acts. Implemented over the network and in memory.
#pragma once

#include <chrono>
#include <functional>
#include <string>

#include "venue/board.h"
#include "venue/fork.h"
#include "venue/link.h"

namespace courthand::venue {

/// What a head official decided about an alert.
enum class RulingChoice : std::uint8_t { accept, overrule, otherwise };

/// Callbacks may come on any thread and are never made after `stop` has returned.
class BoardSource {
  public:
    struct Listener {
        std::function<void(const Board&)> board;
        std::function<void(const Link&)> link;
    };
    /// Longest note that is kept with a ruling or a shelving, in bytes of UTF-8.
    static constexpr std::size_t longest_note = 500;

    BoardSource() = default;
    BoardSource(const BoardSource&) = delete;
    BoardSource& operator=(const BoardSource&) = delete;
    virtual ~BoardSource() = default;

    virtual void start(Listener listener) = 0;
    virtual void stop() = 0;

    virtual void claim(const std::string& alert_id, Answer answer) = 0;
    /// Says that it was seen; an alert that only informs ends by it.
    virtual void acknowledge(const std::string& alert_id, Answer answer) = 0;
    virtual void rule(const std::string& alert_id, RulingChoice choice, const std::string& note,
                      Answer answer) = 0;
    /// Refused for severity 1.
    virtual void shelve(const std::string& alert_id, std::chrono::minutes time,
                        const std::string& reason, Answer answer) = 0;
    /// Lets the device that asks go on with the match in the place of the one that writes it, or
    /// not. Done at once; the wish is gone either way.
    virtual void answer_take_over(const Id& match_id, const Id& device_id, bool consent,
                                  Answer answer) = 0;

    /// Both sides of a forked record.
    virtual void look_at_fork(const std::string& alert_id, ForkAnswer answer) = 0;
    /// Ends the alert, and tells the court. No record is changed by it.
    virtual void settle_fork(const std::string& alert_id, ForkChoice choice,
                             const std::string& note, Answer answer) = 0;
    /// Longest note of it; the server puts the numbers of the entries before it.
    static constexpr std::size_t longest_fork_note = 250;
};

}  // namespace courthand::venue
