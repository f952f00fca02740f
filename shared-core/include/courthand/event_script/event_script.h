// The event script: a text form of the record of a tournament, one fact a line, in the manner of
// the match script (courthand/script/script.h). The grammar is in
// shared-core/event_script/README.md.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/event/fact.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"
#include "courthand/script/script.h"

namespace courthand::event {

/// What a line asks the replay to check.
struct Expectation {
    enum class Kind : std::uint8_t {
        fine,       ///< the last fact took effect
        finding,    ///< the last fact had no effect, for this problem
        place,      ///< `names[0]` is at place `number` of a pool
        undecided,  ///< the pool needs a decision on exactly these teams, if any are named
        decided,    ///< it needs none
        /// It is being played: its places are provisional, and exactly `names` have none so far.
        provisional,
        pool,     ///< exactly these teams are in the pool, in this order
        side,     ///< who is on a side of a match: a team, open, or a bye
        final,    ///< `names[0]` ends at place `number` of its division, alone or with others
        matches,  ///< the division has so many matches
        result,   ///< the sets of the confirmed result that counts; no sets: none counts
        doubt,    ///< there is a result, and it does not count
        works,    ///< `names[0]` works the match
        back,     ///< taking fact `number` back leaves exactly these facts without effect
        reopens,  ///< reopening the match changes exactly these matches
        late,     ///< points and sets that lateness costs a team as of `at`
        changed,  ///< so many places differ from the published plan
        waiting,  ///< so many things wait for a person
    };
    /// What is on a side.
    enum class Who : std::uint8_t { team, open, bye };
    Kind kind = Kind::fine;
    Problem problem{};
    std::string word;      ///< of a match or pool
    std::string division;  ///< empty: of the first division that has such a pool
    std::vector<std::string> names;
    std::vector<std::uint32_t> numbers;
    std::uint32_t number = 0;
    bool second = false;  ///< the second side
    Who who = Who::team;
    std::string because;  ///< of a place: a criterion or who decided; of an open side: part of why
    std::vector<SetScore> sets;
    LocalTime at;
    friend bool operator==(const Expectation&, const Expectation&) = default;
};

struct EventLine {
    std::uint32_t line = 0;  ///< from 1
    std::variant<Said, Expectation> content;
    std::uint32_t column = 1;  ///< where its verb begins, from 1

    /// Lines are equal when they say the same, wherever they stand.
    friend bool operator==(const EventLine& x, const EventLine& y) {
        return x.content == y.content;
    }
};

struct EventScript {
    std::string source;  ///< the first comment line, without '#'
    std::vector<EventLine> lines;
    friend bool operator==(const EventScript&, const EventScript&) = default;
};

/// Fifty thousand facts do not fit; the largest event of the limits has a quarter of them.
inline constexpr std::size_t largest_event_script = 4 * 1024 * 1024;  // bytes

/// Reads a script, or says what is wrong with its first bad line.
[[nodiscard]] std::variant<EventScript, ScriptError> read_event(std::string_view text);

/// Writes a script in its one canonical form: `read_event(write_event(s)) == s` for every script
/// that was read. Comments are not kept, but for the source.
[[nodiscard]] std::string write_event(const EventScript& script);

/// One fact or expectation as a line, without the line end.
[[nodiscard]] std::string event_line(const Said& said);
[[nodiscard]] std::string event_line(const Expectation& expected);

}  // namespace courthand::event
