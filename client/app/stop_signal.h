// Ctrl-C and SIGTERM as a flag that loops look at.
#pragma once

namespace courthand::client {

/// Call once, early in main. Also keeps a broken pipe from ending the program.
void listen_for_stop() noexcept;
[[nodiscard]] bool stop_asked() noexcept;

}  // namespace courthand::client
