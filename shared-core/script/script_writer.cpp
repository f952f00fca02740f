#include <fmt/format.h>

#include <string>
#include <type_traits>
#include <utility>

#include "courthand/script/script.h"
#include "script/fact_writer.h"
#include "script/words.h"
#include "script/written.h"

namespace courthand {
namespace script {
namespace {

std::string record_text(const Record& record, std::string_view text) {
    return std::visit(
        [&](const auto& r) -> std::string {
            using Kind = std::decay_t<decltype(r)>;
            if constexpr (std::is_same_v<Kind, Fact>)
                return fact_text(r, text);
            else if constexpr (std::is_same_v<Kind, Strike>)
                return fmt::format("strike @{}", r.target);
            else if constexpr (std::is_same_v<Kind, Insert>)
                return fmt::format("insert @{} {}", r.after, fact_text(r.fact, text));
            else
                return fmt::format("amend @{} {}", r.target, fact_text(r.fact, text));
        },
        record);
}

const Roster* roster_of(const Record& record) {
    const Fact* fact = std::get_if<Fact>(&record);
    if (const auto* const insert = std::get_if<Insert>(&record)) fact = &insert->fact;
    if (const auto* const amend = std::get_if<Amend>(&record)) fact = &amend->fact;
    return fact == nullptr ? nullptr : std::get_if<Roster>(fact);
}

// --- expectations -------------------------------------------------------------------------------

std::string remedy_text(const Expectation& e) {
    std::string out;
    if (e.has_remedy) {
        out += fmt::format(" remedy {}", word_of(action_words, e.action));
        if (e.remedy_has_team) out += fmt::format(" {}", written(e.remedy_team));
        if (e.has_undo) out += " undo";
    }
    if (e.has_cancel) out += fmt::format(" cancel {}", e.cancel);
    return out;
}

std::string numbers_text(const Expectation& e) {
    std::string out;
    for (std::size_t i = 0; i < e.count; ++i) out += ' ' + written(e.numbers[i]);
    return out;
}

/// What follows the first word of an expectation.
std::string expectation_rest(const Expectation& e) {
    using Kind = Expectation::Kind;
    switch (e.kind) {
        case Kind::legal:
        case Kind::none:
            return {};
        case Kind::armed:
        case Kind::open:
        case Kind::raised:
        case Kind::cleared:
        case Kind::appeared:
        case Kind::vanished:
        case Kind::changed:
            return fmt::format(" {} {}{}", describe(e.reason).word, written(e.team),
                               remedy_text(e));
        case Kind::score:
            return fmt::format(" {} {}", e.score.a, e.score.b) +
                   (e.set != 0 ? fmt::format(" set {}", e.set) : std::string{});
        case Kind::sets:
            return fmt::format(" A {} B {}", e.score.a, e.score.b);
        case Kind::serving:
        case Kind::winner:
        case Kind::left:
            return fmt::format(" {}", written(e.team));
        case Kind::server:
        case Kind::court:
        case Kind::captain:
        case Kind::liberos:
            return fmt::format(" {}{}", written(e.team), numbers_text(e));
        case Kind::libero_on:
            return fmt::format(" {} on {} for {}", written(e.team), written(e.numbers[0]),
                               written(e.numbers[1]));
        case Kind::libero_off:
            return fmt::format(" {} off", written(e.team));
        case Kind::next:
        case Kind::waiting:
            return fmt::format(" {}{}{}", word_of(prompt_words, e.prompt),
                               e.prompt_has_team ? ' ' + written(e.team) : std::string{},
                               numbers_text(e));
        case Kind::subs:
        case Kind::improper:
        case Kind::delays:
        case Kind::timeouts:
            return fmt::format(" {} {}", written(e.team), e.count);
    }
    return {};
}

/// Whether reading gives the same format when the line is left out.
bool format_of_profile(const Record& record, const Profile* profile) {
    const Fact* const fact = std::get_if<Fact>(&record);
    const auto* const opened = fact == nullptr ? nullptr : std::get_if<MatchOpened>(fact);
    return profile != nullptr && opened != nullptr && opened->format == profile->rules.format;
}

/// One line without control characters, so that it stays a comment.
std::string comment(std::string text) {
    for (char& c : text)
        if ((static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F) c = ' ';
    return text;
}

}  // namespace
}  // namespace script

std::string script_line(const Record& record) {
    return script::record_text(record, {});
}

std::string script_line(const Expectation& expectation) {
    const Expectation::Kind kind = expectation.kind == Expectation::Kind::libero_off
                                       ? Expectation::Kind::libero_on
                                       : expectation.kind;
    return fmt::format("expect {}{}", script::word_of(script::expectation_words, kind),
                       script::expectation_rest(expectation));
}

std::string write_script(const Script& script, const FindProfile& profiles) {
    std::string out;
    if (!script.source.empty()) out += "# " + script::comment(script.source) + '\n';
    out += "profile " + script.profile + '\n';
    PerTeam<bool> named{};
    bool first = true;
    for (const ScriptLine& line : script.lines) {
        const auto* const record = std::get_if<Record>(&line.content);
        if (record == nullptr) {
            out += script_line(std::get<Expectation>(line.content)) + '\n';
            continue;
        }
        const bool opening = std::exchange(first, false);
        if (opening && script::format_of_profile(*record, profiles(script.profile))) continue;
        std::string_view text = line.text;
        if (const Roster* const roster = script::roster_of(*record); roster != nullptr)
            text = std::exchange(named[roster->team], true) ? std::string_view{}
                                                            : script.names[roster->team];
        out += script::record_text(*record, text) + '\n';
    }
    return out;
}

std::string write_script(const Script& script) {
    return write_script(script, find_profile);
}

}  // namespace courthand
