// What courthand-replay does with an event script.
#pragma once

#include <string_view>

namespace courthand::event {

/// By its name: "….event".
[[nodiscard]] bool is_event_file(std::string_view path) noexcept;

/// Plays the script and prints, after each fact, what it could not bring about, and after each
/// expectation whether it holds; what fails goes to the error stream. 0: all hold, 1: one fails,
/// 2: unreadable.
[[nodiscard]] int replay_file(std::string_view path, std::string_view text, bool json);

}  // namespace courthand::event
