#include "script/fact_reader.h"

#include <fmt/format.h>

#include "script/fact_lines.h"
#include "script/lines_by_hand.h"

namespace courthand::script {
namespace {

// --- one field, by its type ---------------------------------------------------------------------

template <class Kind>
Team read_value(LineReader& line, const Part&, const Field<Kind, Team>&) {
    return line.team();
}
template <class Kind>
Jersey read_value(LineReader& line, const Part& part, const Field<Kind, Jersey>&) {
    if (!part.word.empty() && line.accept(part.word)) return Jersey::none();
    return line.jersey(part.what);
}
template <class Kind>
std::uint8_t read_value(LineReader& line, const Part& part,
                        const Field<Kind, std::uint8_t>& field) {
    return field.bounds.kept(line.number(part.what, field.bounds.least, field.bounds.most));
}
template <class Kind, Choice Value>
Value read_value(LineReader& line, const Part& part, const Field<Kind, Value>& field) {
    return line.choice<Value>(part.what, field.bounds.allowed);
}
template <class Kind>
LiberoBox read_value(LineReader& line, const Part& part, const Field<Kind, LiberoBox>&) {
    return line.libero_box(part.what);
}
template <class Kind>
Score read_value(LineReader& line, const Part& part, const Field<Kind, Score>&) {
    Score score;
    score.a = line.number(fmt::format("{} A", part.what), 0, most_points);
    score.b = line.number(fmt::format("{} B", part.what), 0, most_points);
    return score;
}

// --- one line -----------------------------------------------------------------------------------

template <class Kind>
void read_part(LineReader& line, const Part& part, Kind& fact) {
    if (part.field.empty()) line.require(part.word);
    if (part.field.empty() || (part.may_end && line.at_end())) return;
    for_each_field<Kind>([&](const auto& field, std::size_t) {
        if (field.name == part.field) fact.*field.member = read_value(line, part, field);
    });
}

template <class Kind>
SpokenFact read_line(std::string_view verb, LineReader& line, const MatchFormat& standard) {
    if constexpr (said_by_hand<Kind>) {
        return read_by_hand(As<Kind>{}, verb, line, standard);
    } else {
        static_assert(says_every_field<Kind>(),
                      "a line of script/fact_lines.h leaves out a field, or says one twice");
        Kind fact{};
        for (const Part& part : line_of<Kind>.says) read_part(line, part, fact);
        return {.fact = fact, .text = {}};
    }
}

struct Verb {
    std::string_view word;
    SpokenFact (*read)(std::string_view verb, LineReader& line, const MatchFormat& standard);
};

std::vector<Verb> all_verbs() {
    std::vector<Verb> verbs;
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        if constexpr (said_by_hand<Kind>)
            for (const std::string_view verb : line_of<Kind>.verbs)
                verbs.push_back({verb, read_line<Kind>});
        else
            verbs.push_back({line_of<Kind>.verb, read_line<Kind>});
    });
    return verbs;
}

const std::vector<Verb>& verbs() {
    static const std::vector<Verb> all = all_verbs();
    return all;
}

}  // namespace

std::optional<SpokenFact> read_fact(std::string_view verb, LineReader& line,
                                    const MatchFormat& standard) {
    for (const Verb& known : verbs())
        if (known.word == verb) return known.read(verb, line, standard);
    return std::nullopt;
}

std::vector<std::string_view> fact_verbs() {
    std::vector<std::string_view> words;
    for (const Verb& verb : verbs()) words.push_back(verb.word);
    return words;
}

}  // namespace courthand::script
