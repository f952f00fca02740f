#include "server/main/log.h"

#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

#include <stdexcept>

namespace courthand::server {
namespace {

spdlog::level::level_enum to_spdlog(LogLevel level) {
    switch (level) {
        case LogLevel::debug:
            return spdlog::level::debug;
        case LogLevel::info:
            return spdlog::level::info;
        case LogLevel::warn:
            return spdlog::level::warn;
        case LogLevel::error:
            return spdlog::level::err;
    }
    return spdlog::level::info;
}

bool plain(std::string_view value) {
    return !value.empty() && value.find_first_of(" \"=\n\t\\") == std::string_view::npos;
}

}  // namespace

void start_log(const LogSettings& settings) {
    try {
        const auto logger = settings.file.empty()
                                ? spdlog::stderr_logger_mt("server")
                                : spdlog::basic_logger_mt("server", settings.file);
        logger->set_formatter(std::make_unique<spdlog::pattern_formatter>(
            "%Y-%m-%dT%H:%M:%S.%eZ level=%l %v", spdlog::pattern_time_type::utc));
        logger->set_level(spdlog::level::from_str(settings.level));
        logger->flush_on(spdlog::level::info);
        spdlog::set_default_logger(logger);
    } catch (const spdlog::spdlog_ex& error) {
        throw std::runtime_error{"the log file cannot be written: " + std::string{error.what()}};
    }
}

void stop_log() {
    spdlog::shutdown();
}

std::string log_field(std::string_view key, std::string_view value) {
    std::string field{key};
    field += '=';
    if (plain(value)) return field.append(value);
    field += '"';
    for (const char c : value) {
        if (c == '\n') {
            field += "\\n";
            continue;
        }
        if (c == '"' || c == '\\') field += '\\';
        field += c;
    }
    return field += '"';
}

void log_line(LogLevel level, std::string_view event, std::string_view fields) {
    if (const auto logger = spdlog::default_logger())
        logger->log(to_spdlog(level), "event={}{}", event, fields);
}

}  // namespace courthand::server
