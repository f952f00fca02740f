#include "script/expectation_reader.h"

#include "script/fact_reader.h"

namespace courthand::script {
namespace {

using Kind = Expectation::Kind;

constexpr unsigned most_counted = 250;

/// "remedy point-and-service B undo cancel 2", each part alone, or nothing.
void read_remedy(LineReader& line, Expectation& e) {
    if (line.accept("remedy")) {
        e.has_remedy = true;
        e.action = line.choice(action_words, "a remedy");
        e.remedy_has_team = line.next_is_team();
        if (e.remedy_has_team) e.remedy_team = line.team();
        e.has_undo = line.accept("undo");
    }
    if (line.accept("cancel")) {
        e.has_cancel = true;
        e.cancel = line.number("the number of cancelled points", 0, most_points);
    }
}

void read_verdict(LineReader& line, Expectation& e) {
    e.reason = line.reason();
    e.team = line.team();
    read_remedy(line, e);
}

void read_score(LineReader& line, Expectation& e) {
    e.score.a = line.number("the points of team A", 0, most_points);
    e.score.b = line.number("the points of team B", 0, most_points);
    if (line.accept("set")) e.set = line.number("the number of the set", 1, MatchFormat::most_sets);
}

void read_sets(LineReader& line, Expectation& e) {
    line.require("A");
    e.score.a = line.number("the sets won by team A", 0, MatchFormat::most_sets);
    line.require("B");
    e.score.b = line.number("the sets won by team B", 0, MatchFormat::most_sets);
}

/// Numbers to the end of the line or until all are read; "none" is an empty place.
void read_numbers(LineReader& line, Expectation& e, std::size_t least, std::size_t most) {
    while (e.count < most && (e.count < least || !line.at_end()) && !line.failed()) {
        if (!line.accept("none")) e.numbers[e.count] = line.jersey();
        ++e.count;
    }
}

/// "on 21 for 5" or "off".
void read_libero(LineReader& line, Expectation& e) {
    if (line.accept("off")) {
        e.kind = Kind::libero_off;
        return;
    }
    line.require("on");
    e.numbers[0] = line.jersey("the number of the libero");
    line.require("for");
    e.numbers[1] = line.jersey("the number of the player replaced");
    e.count = 2;
}

/// "libero-must-leave A 5 21": team and numbers may be left out.
void read_prompt(LineReader& line, Expectation& e) {
    e.prompt = line.choice(prompt_words, "what must happen");
    e.prompt_has_team = line.next_is_team();
    if (e.prompt_has_team) e.team = line.team();
    read_numbers(line, e, 0, e.prompt_has_team ? 2 : 0);
}

void read_count(LineReader& line, Expectation& e) {
    e.count = line.number("a count", 0, most_counted);
}

/// What stands after the team, for the kinds that begin with one.
void read_of_team(LineReader& line, Expectation& e) {
    e.team = line.team();
    if (e.kind == Kind::court)
        read_numbers(line, e, players_on_court, players_on_court);
    else if (e.kind == Kind::server || e.kind == Kind::captain)
        read_numbers(line, e, 1, 1);
    else if (e.kind == Kind::liberos)
        read_numbers(line, e, 0, libero_boxes);
    else if (e.kind == Kind::libero_on)
        read_libero(line, e);
    else if (e.kind != Kind::serving && e.kind != Kind::winner && e.kind != Kind::left)
        read_count(line, e);
}

}  // namespace

Expectation read_expectation(LineReader& line) {
    Expectation e{.kind = line.choice(expectation_words, "something to expect")};
    if (line.failed() || e.kind == Kind::legal || e.kind == Kind::none) return e;
    if (e.kind == Kind::armed || e.kind == Kind::open || e.kind == Kind::raised ||
        e.kind == Kind::cleared || e.kind == Kind::appeared || e.kind == Kind::vanished ||
        e.kind == Kind::changed)
        read_verdict(line, e);
    else if (e.kind == Kind::score)
        read_score(line, e);
    else if (e.kind == Kind::next || e.kind == Kind::waiting)
        read_prompt(line, e);
    else if (e.kind == Kind::sets)
        read_sets(line, e);
    else
        read_of_team(line, e);
    return e;
}

}  // namespace courthand::script
