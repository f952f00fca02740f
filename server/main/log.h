// Structured log lines, on standard error or in a file:
// "2026-01-31T09:30:00.123Z level=info event=… key=value …". Thread-safe after `start_log`.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>

namespace courthand::server {

struct LogSettings {
    std::string level = "info";  ///< trace debug info warn error off
    std::string file;            ///< empty: standard error
};

/// Throws std::runtime_error with a plain text when the file cannot be written.
void start_log(const LogSettings& settings);
void stop_log();

/// One `key=value`, quoted when the value needs it.
[[nodiscard]] std::string log_field(std::string_view key, std::string_view value);

enum class LogLevel { debug, info, warn, error };
void log_line(LogLevel level, std::string_view event, std::string_view fields);

/// log(LogLevel::info, "push", "match", id, "entries", 12)
inline void append_fields(std::string&) {}
template <class Value, class... Rest>
void append_fields(std::string& line, std::string_view key, const Value& value,
                   const Rest&... rest) {
    line += ' ';
    line += log_field(key, fmt::format("{}", value));
    append_fields(line, rest...);
}
template <class... Fields>
void log(LogLevel level, std::string_view event, const Fields&... fields) {
    std::string line;
    append_fields(line, fields...);
    log_line(level, event, line);
}

}  // namespace courthand::server
