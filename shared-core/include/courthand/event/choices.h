// The closed choices inside the facts of a tournament, each value with its word, as for a match
// (match/choices.h): scripts write the words, the wire the number of the value plus one.
#pragma once

#include "courthand/event/fact.h"
#include "courthand/match/choices.h"

namespace courthand {

template <>
inline constexpr Words<2> choices<event::WithdrawnResults>{"struck", "kept"};
template <>
inline constexpr Words<4> choices<event::Role>{"player", "coach", "official", "worker"};
template <>
inline constexpr Words<3> choices<event::DrawMethod>{"serpentine", "rows", "by-hand"};
template <>
inline constexpr Words<4> choices<event::BracketKind>{"single", "double", "consolation",
                                                      "placement"};
template <>
inline constexpr Words<2> choices<event::Timing>{"fixed", "follows"};
template <>
inline constexpr Words<2> choices<event::Confirmer>{"desk", "signatures"};
template <>
inline constexpr Words<3> choices<event::ResultFrom>{"table", "paper", "signed-record"};
template <>
inline constexpr Words<4> choices<event::Award>{"default", "forfeit", "team-short",
                                                "double-default"};
template <>
inline constexpr Words<2> choices<event::LateParty>{"team", "crew"};
template <>
inline constexpr Words<3> choices<event::ClockAct>{"started", "paused", "stopped"};
template <>
inline constexpr Words<3> choices<standings::Decider>{"lot", "play-off", "director"};
template <>
inline constexpr Words<8> choices<event::Source::Kind>{"none",  "team",   "place", "winner",
                                                       "loser", "better", "worse", "bye"};

}  // namespace courthand
