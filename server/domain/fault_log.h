// Where a fault that nobody expected is told: it costs the call it met and one line of the log.
#pragma once

#include <functional>
#include <string_view>

namespace courthand::server {

using FaultLog = std::function<void(std::string_view where, std::string_view what)>;

/// Before any thread may log; until then, and with an empty one, faults go to standard error.
void set_fault_log(FaultLog log);

/// `where`: the call or job, in words. Never throws.
void log_fault(std::string_view where, std::string_view what) noexcept;
/// The exception now handled.
void log_current_exception(std::string_view where) noexcept;

}  // namespace courthand::server
