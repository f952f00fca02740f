#include "courthand/event_script/event_program.h"

#include <fmt/format.h>

#include <cstdio>

#include "courthand/event/advance.h"
#include "courthand/event_script/event_replay.h"

namespace courthand::event {
namespace {

constexpr int exit_fine = 0;
constexpr int exit_expectation_failed = 1;
constexpr int exit_unreadable = 2;

[[nodiscard]] std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) < 0x20)
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        else
            out += c;
    }
    return out + '"';
}

[[nodiscard]] std::string finding_json(const std::optional<Finding>& finding) {
    if (!finding) return "null";
    return fmt::format(R"({{"problem":{},"place":{},"message":{},"cure":{}}})",
                       quoted(word_of(finding->problem)), quoted(finding->fault.place),
                       quoted(finding->fault.message), quoted(finding->fault.cure));
}

[[nodiscard]] std::string line_json(const EventReplay& replay) {
    const EventLine& line = replay.line();
    if (const auto* expected = std::get_if<Expectation>(&line.content))
        return fmt::format(R"({{"line":{},"expect":{},"holds":{},"found":{}}})", line.line,
                           quoted(event_line(*expected)), replay.found().empty(),
                           quoted(replay.found()));
    return fmt::format(R"({{"line":{},"fact":{},"says":{},"finding":{}}})", line.line,
                       replay.state().last(), quoted(event_line(std::get<Said>(line.content))),
                       finding_json(replay.finding()));
}

[[nodiscard]] std::string line_text(const EventReplay& replay) {
    const EventLine& line = replay.line();
    if (const auto* expected = std::get_if<Expectation>(&line.content))
        return fmt::format("      {}: {}", event_line(*expected),
                           replay.found().empty() ? "holds" : replay.found());
    std::string out =
        fmt::format("{:>4}  {}", replay.state().last(), event_line(std::get<Said>(line.content)));
    if (const auto finding = replay.finding())
        out += fmt::format("\n      {}: {}: {}; {}", word_of(finding->problem),
                           finding->fault.place, finding->fault.message, finding->fault.cure);
    return out;
}

[[nodiscard]] std::string summary(const TournamentState& state, std::size_t failed, bool json) {
    std::string out;
    if (json) {
        for (const tournament::Fault& fault : waiting(state))
            out +=
                fmt::format("{}{{\"place\":{},\"message\":{},\"cure\":{}}}", out.empty() ? "" : ",",
                            quoted(fault.place), quoted(fault.message), quoted(fault.cure));
        return fmt::format("{{\"end\":true,\"failed\":{},\"waiting\":[{}]}}", failed, out);
    }
    for (const tournament::Fault& fault : waiting(state))
        out += fmt::format("waits: {}: {}; {}\n", fault.place, fault.message, fault.cure);
    return out + fmt::format("{} facts, {} matches, {} expectations failed", state.last(),
                             state.match_names.size(), failed);
}

}  // namespace

bool is_event_file(std::string_view path) noexcept {
    return path.ends_with(".event");
}

int replay_file(std::string_view path, std::string_view text, bool json) {
    const auto read = read_event(text);
    if (const auto* const e = std::get_if<ScriptError>(&read)) {
        fmt::print(stderr, "{}:{}:{}: {}; {}\n", path, e->line, e->column, e->message, e->cure);
        return exit_unreadable;
    }
    EventReplay replay{std::get<EventScript>(read)};
    std::size_t failed = 0;
    while (replay.next()) {
        fmt::print("{}\n", json ? line_json(replay) : line_text(replay));
        if (replay.found().empty()) continue;
        ++failed;
        fmt::print(stderr, "{}:{}: {}: {}\n", path, replay.line().line,
                   event_line(std::get<Expectation>(replay.line().content)), replay.found());
    }
    fmt::print("{}\n", summary(replay.state(), failed, json));
    return failed == 0 ? exit_fine : exit_expectation_failed;
}

}  // namespace courthand::event
