// How a script says each kind of fact: one row for each kind, read and written alike. What stands
// in a field follows from match/fact_fields.h; a row gives the verb, the order and the words
// between, and what a person is told is missing. A kind without a row, and a row that names a field
// twice or not at all, does not compile.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <type_traits>

#include "courthand/match/fact_fields.h"

namespace courthand::script {

/// A field of the fact, or a word that stands between two fields.
struct Part {
    std::string_view field;  ///< empty: `word` stands here
    std::string_view what;   ///< with its article, for "… is missing here"
    std::string_view word;   ///< beside a field: what is written for no number
    bool may_end = false;    ///< the line may end before it: the field keeps its first value
};

[[nodiscard]] constexpr Part of(std::string_view field, std::string_view what) {
    return {field, what, {}, false};
}
[[nodiscard]] constexpr Part or_end(std::string_view field, std::string_view what) {
    return {field, what, {}, true};
}
[[nodiscard]] constexpr Part or_word(std::string_view field, std::string_view what,
                                     std::string_view word) {
    return {field, what, word, false};
}
[[nodiscard]] constexpr Part word(std::string_view word) {
    return {{}, {}, word, false};
}

inline constexpr Part team = of("team", "a team, A or B");
inline constexpr Part comes_in = of("in", "the number of the player who comes in");
inline constexpr std::string_view a_box = "a libero's number, 'none' or '?'";
inline constexpr Part goes_out = of("out", "the number of the player who goes out");

template <std::size_t parts>
struct Line {
    std::string_view verb;
    std::array<Part, parts> says;
};

template <class... Parts>
[[nodiscard]] constexpr Line<sizeof...(Parts)> line(std::string_view verb, Parts... says) {
    return {verb, {says...}};
}

/// A kind whose line needs more than a row of fields: lines_by_hand.h reads and writes it. It has
/// more than one verb where one kind is said in several ways.
template <std::size_t verb_count>
struct LineByHand {
    std::string_view why;
    std::array<std::string_view, verb_count> verbs;
};

template <class... Verbs>
[[nodiscard]] constexpr LineByHand<sizeof...(Verbs)> by_hand(std::string_view why, Verbs... verbs) {
    return {why, {std::string_view{verbs}...}};
}

template <class Kind>
struct Unsaid {
    static_assert(!std::is_same_v<Kind, Kind>,
                  "a new kind of fact: give it a line in script/fact_lines.h");
};

/// The row of a kind.
template <class Kind>
inline constexpr Unsaid<Kind> line_of{};

// --- before the match ---------------------------------------------------------------------------

template <>
inline constexpr auto line_of<MatchOpened> =
    by_hand("clauses in any order, which change the format of the profile", "format");

template <>
inline constexpr auto line_of<Roster> = by_hand("the team's name, and runs of numbers", "team");

template <>
inline constexpr auto line_of<Toss> = line("toss", word("serve"), of("serves", "a team, A or B"),
                                           word("left"), of("left", "a team, A or B"));

template <>
inline constexpr auto line_of<SetStarted> = line("set", of("number", "the number of the set"));

// --- line-up sheets -----------------------------------------------------------------------------

template <>
inline constexpr auto line_of<LineUp> = by_hand("six places, and clauses that may be left out",
                                                "lineup");

template <>
inline constexpr auto line_of<LiberoBoxSettled> = line("box", team,
                                                       of("box", "the number of the box"),
                                                       of("entry", a_box));

template <>
inline constexpr auto line_of<LineUpChecked> = line("checked", team);

// --- play ---------------------------------------------------------------------------------------

template <>
inline constexpr auto line_of<Whistle> = line("whistle");

template <>
inline constexpr auto line_of<Serve> = by_hand("team and number stand together or not at all",
                                               "serve");

template <>
inline constexpr auto line_of<RallyWon> = line("rally", team);

template <>
inline constexpr auto line_of<Replay> = line("replay");

template <>
inline constexpr auto line_of<PositionalFault> = by_hand("the second number only after the first",
                                                         "positional-fault");

template <>
inline constexpr auto line_of<LiberoReplacement> = line("libero", team, comes_in, word("for"),
                                                        goes_out);

template <>
inline constexpr auto line_of<Substitution> = by_hand("as many pairs as follow", "sub");

template <>
inline constexpr auto line_of<ExceptionalSubstitution> = line("exceptional", team, comes_in,
                                                              word("for"), goes_out,
                                                              or_end("cause", "a cause"));

template <>
inline constexpr auto line_of<TimeOut> = line("timeout", team);

// --- people -------------------------------------------------------------------------------------

template <>
inline constexpr auto line_of<GameCaptain> = line("captain", team,
                                                  of("player", "the number of the game captain"));

template <>
inline constexpr auto line_of<LiberoUnable> = line("unable", team,
                                                   of("libero", "the number of the libero"),
                                                   or_end("cause", "a cause"));

template <>
inline constexpr auto line_of<Redesignation> =
    line("redesignate", team, of("in", "the number of the new libero"), word("for"),
         of("out", "the number of the libero whose place is taken"));

template <>
inline constexpr auto line_of<Misconduct> = line("misconduct", team,
                                                 or_word("person", "a player's number or 'bench'",
                                                         "bench"),
                                                 of("sanction", "a sanction"));

template <>
inline constexpr auto line_of<Delay> = line("delay", team, of("sanction", "a delay sanction"));

template <>
inline constexpr auto line_of<ImproperRequest> = line("improper", team);

template <>
inline constexpr auto line_of<Injury> = line("injury", team, of("player", "a player's number"));

template <>
inline constexpr auto line_of<Recovery> = line("recovery", team, of("player", "a player's number"));

// --- course of the match, officials -------------------------------------------------------------

template <>
inline constexpr auto line_of<CourtSwitch> = line("switch");

template <>
inline constexpr auto line_of<Interval> = line("interval");

template <>
inline constexpr auto line_of<Interrupted> = line("interrupted");

template <>
inline constexpr auto line_of<Resumed> = line("resumed", of("how", "a way to go on"));

template <>
inline constexpr auto line_of<Ruling> =
    by_hand("'moment-unknown' at the end changes the decision at the beginning", "ruling");

template <>
inline constexpr auto line_of<Incomplete> = line("incomplete", team, of("scope", "a scope"));

template <>
inline constexpr auto line_of<Default> = line("default", team);

template <>
inline constexpr auto line_of<Protest> = by_hand("its text is no field", "protest");

template <>
inline constexpr auto line_of<ScoreCorrection> = line("score-fix",
                                                      of("score", "the points of team"));

template <>
inline constexpr auto line_of<Note> = by_hand("a verb for each choice, and a text that is no field",
                                              "remark", "officials", "sign");

template <>
inline constexpr auto line_of<Signature> = line("signed", of("by", "who signs, such as captain-a"));

// --- the check ----------------------------------------------------------------------------------

template <class Kind>
inline constexpr bool said_by_hand = requires {
    line_of<Kind>.verbs;
};

/// Every field of the kind stands in its row once, and nothing else does.
template <class Kind>
[[nodiscard]] constexpr bool says_every_field() {
    std::size_t said = 0;
    for (const Part& part : line_of<Kind>.says) said += part.field.empty() ? 0 : 1;
    bool each_once = said == field_count<Kind>;
    for_each_field<Kind>([&](const auto& field, std::size_t) {
        int times = 0;
        for (const Part& part : line_of<Kind>.says) times += part.field == field.name ? 1 : 0;
        each_once = each_once && times == 1;
    });
    return each_once;
}

}  // namespace courthand::script
