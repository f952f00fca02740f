// A state from a few script lines, so that a test reads as the desk would say it.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "courthand/event/fold.h"
#include "courthand/event_script/event_script.h"
#include "tests/testkit/small_cup.h"

namespace courthand::event::testing {

/// The facts of a script that must be readable.
inline std::vector<Fact> facts_of(const std::string& text) {
    const auto read = read_event(text);
    std::vector<Fact> facts;
    if (const auto* error = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << error->line << ", column " << error->column << ": "
                      << error->message << "; " << error->cure;
        return facts;
    }
    for (const EventLine& line : std::get<EventScript>(read).lines)
        if (const auto* said = std::get_if<Said>(&line.content)) facts.push_back(said->fact);
    return facts;
}

inline TournamentState state_of(const std::string& text) {
    return fold(facts_of(text));
}

/// A pool of three and a pool of three, best of three, and a final of their winners.
inline std::string small_cup() {
    return testkit::six_teams() +
           "draw U16 serpentine pools 2\n"
           "bracket U16 single prefix M size 4 to-place 2 third-place\n";
}

}  // namespace courthand::event::testing
