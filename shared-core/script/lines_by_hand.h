// The lines of the kinds that need more than a row of fields (script/fact_lines.h says why): each
// is read and written here side by side.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>

#include "script/fact_reader.h"
#include "script/line_reader.h"

namespace courthand::script {

template <class Kind>
using As = std::type_identity<Kind>;

SpokenFact read_by_hand(As<MatchOpened> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Roster> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<LineUp> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Serve> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<PositionalFault> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Substitution> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Ruling> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Protest> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);
SpokenFact read_by_hand(As<Note> kind, std::string_view verb, LineReader& line,
                        const MatchFormat& standard);

/// The line with its verb. `text` is the name of a team or the words of a note.
std::string written_by_hand(const MatchOpened& fact, std::string_view text);
std::string written_by_hand(const Roster& fact, std::string_view text);
std::string written_by_hand(const LineUp& fact, std::string_view text);
std::string written_by_hand(const Serve& fact, std::string_view text);
std::string written_by_hand(const PositionalFault& fact, std::string_view text);
std::string written_by_hand(const Substitution& fact, std::string_view text);
std::string written_by_hand(const Ruling& fact, std::string_view text);
std::string written_by_hand(const Protest& fact, std::string_view text);
std::string written_by_hand(const Note& fact, std::string_view text);

}  // namespace courthand::script
