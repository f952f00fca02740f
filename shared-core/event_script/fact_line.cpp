#include "event_script/fact_line.h"

#include <fmt/format.h>

#include "courthand/event_script/event_script.h"
#include "event_script/event_lines.h"
#include "event_script/values_read.h"
#include "event_script/values_written.h"
#include "script/near_miss.h"
#include "script/written.h"

namespace courthand::event {
namespace {

/// Before the words beside a fact, at the end of its line.
constexpr std::string_view words_word = "words";

// --- reading ------------------------------------------------------------------------------------

template <class Kind>
void read_part(LineReader& line, const Part& part, Kind& fact) {
    for_each_field<Kind>([&](const auto& field) {
        if (field.name != part.field) return;
        using Value = typename std::decay_t<decltype(field)>::Value;
        if constexpr (std::is_same_v<Value, bool>)
            fact.*field.member = true;
        else
            read_value(line, part.what, field.bounds, fact.*field.member);
    });
}

void read_reason(LineReader& line, std::string& words) {
    words = line.quoted("the words in quotation marks");
    if (words.empty()) line.fail("the words are empty", "write them, or leave 'words' out");
    if (words.size() > most_reason_bytes)
        line.fail(fmt::format("the words have more than {} bytes", most_reason_bytes),
                  "shorten them");
}

/// What comes next is none of the clauses that may stand here.
template <class Kind>
void unknown_clause(LineReader& line) {
    std::vector<std::string_view> known{words_word};
    for (const Part& part : line_of<Kind>.says)
        if (part.may_miss) known.push_back(part.word);
    if (line.next_is_quoted()) return line.finish();
    const std::string typed = line.word("a clause");
    line.unknown_word("a clause of this line", typed, known);
}

template <class Kind>
Said read_line(LineReader& line) {
    static_assert(says_every_field<Kind>(),
                  "a line of event_script/event_lines.h leaves out a field, or says one twice");
    Said said;
    Kind fact{};
    for (const Part& part : line_of<Kind>.says) {
        if (part.may_miss) break;
        if (!part.word.empty()) line.require(part.word);
        read_part(line, part, fact);
    }
    while (!line.at_end()) {
        if (line.accept(words_word)) {
            read_reason(line, said.words);
            break;
        }
        bool read = false;
        for (const Part& part : line_of<Kind>.says)
            if (!read && part.may_miss && line.accept(part.word)) {
                read_part(line, part, fact);
                read = true;
            }
        if (!read) unknown_clause<Kind>(line);
    }
    said.fact = std::move(fact);
    return said;
}

struct Verb {
    std::string_view word;
    Said (*read)(LineReader& line);
};

const std::vector<Verb>& verbs() {
    static const std::vector<Verb> all = [] {
        std::vector<Verb> found;
        for_each_kind([&](auto kind) {
            using Kind = typename decltype(kind)::type;
            found.push_back({line_of<Kind>.verb, read_line<Kind>});
        });
        return found;
    }();
    return all;
}

// --- writing ------------------------------------------------------------------------------------

template <class Kind>
std::string part_text(const Part& part, const Kind& fact) {
    const Kind first{};
    std::string out;
    for_each_field<Kind>([&](const auto& field) {
        if (field.name != part.field) return;
        const auto& value = fact.*field.member;
        if (part.may_miss && value == first.*field.member) return;
        if (!part.word.empty()) out += fmt::format(" {}", part.word);
        using Value = typename std::decay_t<decltype(field)>::Value;
        if constexpr (!std::is_same_v<Value, bool>)
            out += fmt::format(" {}", value_text(field.bounds, value));
    });
    return out;
}

}  // namespace

std::optional<Said> read_fact(std::string_view verb, LineReader& line) {
    for (const Verb& known : verbs()) {
        if (known.word != verb) continue;
        Said said = known.read(line);
        // Lists and texts were checked where they stand; this is the last net.
        if (const auto wrong = out_of_bounds(said.fact); wrong && !line.failed())
            line.fail(fmt::format("{} {}", wrong->field, wrong->message), "correct it");
        return said;
    }
    return std::nullopt;
}

std::vector<std::string_view> fact_verbs() {
    std::vector<std::string_view> words;
    for (const Verb& verb : verbs()) words.push_back(verb.word);
    return words;
}

std::string event_line(const Said& said) {
    std::string out = std::visit(
        []<class Kind>(const Kind& fact) {
            std::string line{line_of<Kind>.verb};
            for (const Part& part : line_of<Kind>.says) line += part_text(part, fact);
            return line;
        },
        said.fact);
    if (!said.words.empty())
        out += fmt::format(" {} {}", words_word, script::written_text(said.words));
    return out;
}

}  // namespace courthand::event
