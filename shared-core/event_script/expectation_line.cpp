#include "event_script/expectation_line.h"

#include <fmt/format.h>

#include "event_script/values_read.h"
#include "event_script/values_written.h"
#include "script/words.h"
#include "script/written.h"

namespace courthand::event {
namespace {

using Kind = Expectation::Kind;
using script::Word;

constexpr std::array<Word<Kind>, 18> kind_words{{
    {"fine", Kind::fine},
    {"finding", Kind::finding},
    {"place", Kind::place},
    {"undecided", Kind::undecided},
    {"decided", Kind::decided},
    {"provisional", Kind::provisional},
    {"pool", Kind::pool},
    {"side", Kind::side},
    {"final", Kind::final},
    {"matches", Kind::matches},
    {"result", Kind::result},
    {"doubt", Kind::doubt},
    {"works", Kind::works},
    {"back", Kind::back},
    {"reopens", Kind::reopens},
    {"late", Kind::late},
    {"changed", Kind::changed},
    {"waiting", Kind::waiting},
}};

constexpr std::uint64_t most_counted = 100'000;
constexpr std::string_view a_team = "a team's name in quotation marks";

// --- reading ------------------------------------------------------------------------------------

void read_problem(LineReader& line, Expectation& e) {
    const std::string typed = line.word("a kind of finding");
    for (std::size_t i = 0; i < problem_words.size(); ++i)
        if (problem_words[i] == typed) {
            e.problem = static_cast<Problem>(i);
            return;
        }
    line.unknown_word("a kind of finding", typed, {problem_words.begin(), problem_words.end()});
}

void read_division(LineReader& line, Expectation& e) {
    if (line.accept("in")) e.division = read_word(line, "the code of a division");
}

void read_pool(LineReader& line, Expectation& e) {
    e.word = read_word(line, "the name of a pool");
    read_division(line, e);
}

void read_name(LineReader& line, Expectation& e) {
    read_value(line, a_team, a_name, e.names.emplace_back());
}

void read_names(LineReader& line, Expectation& e) {
    while (line.next_is_quoted()) read_name(line, e);
}

void read_place(LineReader& line, Expectation& e) {
    e.number = static_cast<std::uint32_t>(read_number(line, "a place", 1, most_teams));
    line.require("pool");
    read_pool(line, e);
    read_name(line, e);
    if (line.accept("because")) e.because = read_word(line, "a criterion, or who decided");
}

void read_side(LineReader& line, Expectation& e) {
    e.word = read_word(line, "the name of a match");
    e.second = line.accept("second");
    if (!e.second) line.require("first");
    if (line.accept("bye")) {
        e.who = Expectation::Who::bye;
    } else if (line.accept("open")) {
        e.who = Expectation::Who::open;
        if (line.accept("because")) read_value(line, "why, in quotation marks", a_name, e.because);
    } else {
        read_name(line, e);
    }
}

void read_late(LineReader& line, Expectation& e) {
    e.word = read_word(line, "the name of a match");
    read_name(line, e);
    line.require("at");
    read_value(line, "a moment", {}, e.at);
    line.require("points");
    e.number = static_cast<std::uint32_t>(read_number(line, "points", 0, most_points));
    for (const std::string_view lost : {"first-set", "match"})
        if (e.because.empty() && line.accept(lost)) e.because = lost;
}

void read_back(LineReader& line, Expectation& e) {
    e.number = static_cast<std::uint32_t>(read_number(line, "the number of a fact", 1, most_facts));
    while (line.next_is_number())
        e.numbers.push_back(
            static_cast<std::uint32_t>(read_number(line, "the number of a fact", 1, most_facts)));
}

void read_count(LineReader& line, Expectation& e, std::string_view what) {
    e.number = static_cast<std::uint32_t>(read_number(line, what, 0, most_counted));
}

void read_rest(LineReader& line, Expectation& e) {
    switch (e.kind) {
        case Kind::fine:
            return;
        case Kind::finding:
            return read_problem(line, e);
        case Kind::place:
            return read_place(line, e);
        case Kind::undecided:
        case Kind::decided:
        case Kind::provisional:
        case Kind::pool:
            read_pool(line, e);
            if (e.kind != Kind::decided) read_names(line, e);
            return;
        case Kind::side:
            return read_side(line, e);
        case Kind::final:
            e.number = static_cast<std::uint32_t>(read_number(line, "a place", 1, most_teams));
            read_division(line, e);
            return read_name(line, e);
        case Kind::matches:
            read_count(line, e, "a number of matches");
            return read_division(line, e);
        case Kind::result:
            e.word = read_word(line, "the name of a match");
            while (line.next_is_number()) read_value(line, "a set", {}, e.sets.emplace_back());
            return;
        case Kind::doubt:
            e.word = read_word(line, "the name of a match");
            return;
        case Kind::works:
            e.word = read_word(line, "the name of a match");
            return read_name(line, e);
        case Kind::back:
            return read_back(line, e);
        case Kind::reopens:
            e.word = read_word(line, "the name of a match");
            if (!line.at_end())
                read_words(line, "matches with commas", {most_matches, a_word}, e.names);
            return;
        case Kind::late:
            return read_late(line, e);
        case Kind::changed:
        case Kind::waiting:
            return read_count(line, e, "a number");
    }
}

// --- writing ------------------------------------------------------------------------------------

std::string in_division(const Expectation& e) {
    return e.division.empty() ? std::string{} : " in " + e.division;
}

std::string names_text(const Expectation& e) {
    std::string out;
    for (const std::string& name : e.names) out += ' ' + script::written_text(name);
    return out;
}

std::string side_text(const Expectation& e) {
    std::string out = fmt::format(" {} {}", e.word, e.second ? "second" : "first");
    if (e.who == Expectation::Who::bye) return out + " bye";
    if (e.who == Expectation::Who::team) return out + names_text(e);
    out += " open";
    if (!e.because.empty()) out += " because " + script::written_text(e.because);
    return out;
}

std::string rest_text(const Expectation& e) {
    switch (e.kind) {
        case Kind::fine:
            return {};
        case Kind::finding:
            return fmt::format(" {}", word_of(e.problem));
        case Kind::place:
            return fmt::format(" {} pool {}{}{}", e.number, e.word, in_division(e), names_text(e)) +
                   (e.because.empty() ? std::string{} : " because " + e.because);
        case Kind::undecided:
        case Kind::decided:
        case Kind::provisional:
        case Kind::pool:
            return fmt::format(" {}{}{}", e.word, in_division(e), names_text(e));
        case Kind::side:
            return side_text(e);
        case Kind::final:
            return fmt::format(" {}{}{}", e.number, in_division(e), names_text(e));
        case Kind::matches:
            return fmt::format(" {}{}", e.number, in_division(e));
        case Kind::result: {
            std::string out = ' ' + e.word;
            for (const SetScore set : e.sets) out += fmt::format(" {}-{}", set.first, set.second);
            return out;
        }
        case Kind::doubt:
            return ' ' + e.word;
        case Kind::works:
            return fmt::format(" {}{}", e.word, names_text(e));
        case Kind::back: {
            std::string out = fmt::format(" {}", e.number);
            for (const std::uint32_t fact : e.numbers) out += fmt::format(" {}", fact);
            return out;
        }
        case Kind::reopens:
            return fmt::format(
                " {}{}{}", e.word, e.names.empty() ? "" : " ",
                value_text(Bounds<std::vector<std::string>>{most_matches, a_word}, e.names));
        case Kind::late:
            return fmt::format(" {}{} at {} points {}{}{}", e.word, names_text(e), written(e.at),
                               e.number, e.because.empty() ? "" : " ", e.because);
        case Kind::changed:
        case Kind::waiting:
            return fmt::format(" {}", e.number);
    }
    return {};
}

}  // namespace

Expectation read_expectation(LineReader& line) {
    Expectation e;
    e.kind = line.choice(kind_words, "something to expect");
    if (!line.failed()) read_rest(line, e);
    return e;
}

std::string event_line(const Expectation& expected) {
    return fmt::format("expect {}{}", script::word_of(kind_words, expected.kind),
                       rest_text(expected));
}

}  // namespace courthand::event
