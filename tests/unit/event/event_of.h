// A state from a few script lines, so that a test reads as the desk would say it.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "courthand/event/fold.h"
#include "courthand/event_script/event_script.h"

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
    return "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
           "division U16 profile international-2021 chain international-2017 format best-of 3\n"
           "team \"Harbour Lights\" in U16\n"
           "team \"Mill Lane\" in U16\n"
           "team \"Saltmarsh\" in U16\n"
           "team \"Quayside\" in U16\n"
           "team \"Ropewalk\" in U16\n"
           "team \"Lantern Hill\" in U16\n"
           "draw U16 serpentine pools 2\n"
           "bracket U16 single prefix M size 4 to-place 2 third-place\n";
}

}  // namespace courthand::event::testing
