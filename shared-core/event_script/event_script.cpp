#include "courthand/event_script/event_script.h"

#include <fmt/format.h>

#include <algorithm>

#include "courthand/event/limits.h"
#include "event_script/expectation_line.h"
#include "event_script/fact_line.h"
#include "script/line_reader.h"
#include "script/near_miss.h"
#include "script/tokens.h"

namespace courthand::event {
namespace {

[[nodiscard]] std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

class Reader {
  public:
    std::variant<EventScript, ScriptError> read(std::string_view text) {
        if (text.size() > largest_event_script)
            return ScriptError{1, 1,
                               fmt::format("the file has {} bytes, {} are allowed", text.size(),
                                           largest_event_script),
                               "a tournament needs far less; is this the right file?"};
        if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
            text.remove_prefix(byte_order_mark.size());
        while (!text.empty()) {
            const std::size_t end = std::min(text.find('\n'), text.size());
            ++line_;
            if (auto error = read_line(text.substr(0, end))) return *error;
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        if (script_.lines.empty())
            return ScriptError{std::max(line_, 1U), 1, "the script says nothing",
                               "begin it with a line such as 'tournament \"Harbour Cup\" …'"};
        return std::move(script_);
    }

  private:
    static constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

    std::optional<ScriptError> read_line(std::string_view line) {
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        auto cut = script::cut_line(line, line_);
        if (auto* const error = std::get_if<ScriptError>(&cut)) return std::move(*error);
        auto& tokens = std::get<script::Tokens>(cut);
        if (tokens.items.empty()) {
            keep_source(trimmed(line));
            return std::nullopt;
        }
        script::LineReader reader{std::move(tokens), line_};
        const std::string verb = reader.word("a verb");
        if (!reader.failed()) read_statement(verb, reader);
        reader.finish();
        return reader.failed() ? std::optional{reader.error()} : std::nullopt;
    }

    void keep_source(std::string_view comment) {
        if (comment.empty() || source_seen_) return;
        source_seen_ = true;
        script_.source = trimmed(comment.substr(1));
    }

    void read_statement(const std::string& verb, script::LineReader& line) {
        const std::uint32_t column = line.column();
        if (verb == "expect") {
            script_.lines.push_back({line_, read_expectation(line), column});
            return;
        }
        std::optional<Said> said = read_fact(verb, line);
        if (!said) return unknown_verb(verb, line);
        if (facts_ == most_facts)
            line.fail(fmt::format("more than {} facts", most_facts),
                      "no tournament has so many; split the file");
        ++facts_;
        script_.lines.push_back({line_, std::move(*said), column});
    }

    static void unknown_verb(const std::string& verb, script::LineReader& line) {
        std::vector<std::string_view> known = fact_verbs();
        known.emplace_back("expect");
        line.fail(fmt::format("'{}' is no verb of an event script", verb),
                  script::suggestion(verb, known,
                                     "the verbs are listed in the README of the event script"));
    }

    EventScript script_;
    std::uint32_t line_ = 0;
    std::size_t facts_ = 0;
    bool source_seen_ = false;
};

/// One line without control characters, so that it stays a comment.
[[nodiscard]] std::string comment(std::string text) {
    for (char& c : text)
        if ((static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F) c = ' ';
    return text;
}

}  // namespace

std::variant<EventScript, ScriptError> read_event(std::string_view text) {
    return Reader{}.read(text);
}

std::string write_event(const EventScript& script) {
    std::string out;
    if (!script.source.empty()) out += "# " + comment(script.source) + '\n';
    for (const EventLine& line : script.lines)
        out += std::visit([](const auto& says) { return event_line(says); }, line.content) + '\n';
    return out;
}

}  // namespace courthand::event
