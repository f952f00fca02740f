// How an event script says each kind of fact: one row for each kind, read and written alike, in the
// manner of script/fact_lines.h. What stands in a field follows from event/fact_fields.h; a row
// gives the verb, the order and the words before the fields. A kind without a row, and a row that
// names a field twice or not at all, does not compile.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <type_traits>

#include "courthand/event/fact_fields.h"

namespace courthand::event {

/// A field of the fact. Those that may be left out come last, in any order, each after its word.
struct Part {
    std::string_view field;
    std::string_view word;  ///< before the field; empty: it stands by its place alone
    std::string_view what;  ///< with its article, for "… is missing here"
    bool may_miss = false;  ///< left out, the field keeps its first value
};

[[nodiscard]] constexpr Part of(std::string_view field, std::string_view what) {
    return {field, {}, what, false};
}
[[nodiscard]] constexpr Part after(std::string_view word, std::string_view field,
                                   std::string_view what) {
    return {field, word, what, false};
}
[[nodiscard]] constexpr Part may(std::string_view word, std::string_view field,
                                 std::string_view what) {
    return {field, word, what, true};
}
/// A field that is true when its word stands there.
[[nodiscard]] constexpr Part flag(std::string_view word, std::string_view field) {
    return {field, word, {}, true};
}

template <std::size_t parts>
struct Line {
    std::string_view verb;
    std::array<Part, parts> says;
};

template <class... Parts>
[[nodiscard]] constexpr Line<sizeof...(Parts)> line(std::string_view verb, Parts... says) {
    return {verb, {says...}};
}

template <class Kind>
struct Unsaid {
    static_assert(!std::is_same_v<Kind, Kind>,
                  "a new kind of fact: give it a line in event_script/event_lines.h");
};

/// The row of a kind.
template <class Kind>
inline constexpr Unsaid<Kind> line_of{};

inline constexpr std::string_view a_team = "a team's name in quotation marks";
inline constexpr std::string_view a_match = "the name of a match";
inline constexpr std::string_view a_division = "the code of a division";
inline constexpr std::string_view a_pool = "the name of a pool";
inline constexpr std::string_view a_moment = "a moment such as 2026-11-28T09:30";
inline constexpr std::string_view a_source = "a team, a place, a match or 'bye'";
inline constexpr std::string_view a_format = "the format of a match";
inline constexpr std::string_view a_colour = "a colour such as 1f3a5f";

template <>
inline constexpr auto line_of<TournamentOpened> =
    line("tournament", of("name", "its name in quotation marks"),
         after("from", "first_day", "a day such as 2026-11-28"),
         after("to", "last_day", "a day such as 2026-11-29"),
         after("zone", "time_zone", "a time zone such as Europe/London"));

template <>
inline constexpr auto line_of<DivisionOpened> = line(
    "division", of("division", a_division), after("profile", "profile", "the id of a rule profile"),
    after("chain", "chain", "the id of a chain"),
    may("called", "name", "its name in quotation marks"), may("lasts", "match_minutes", "minutes"),
    may("rest", "rest_minutes", "minutes"), may("in-a-row", "most_in_a_row", "a number of matches"),
    may("a-day", "most_a_day", "a number of matches"),
    may("late-points", "late_points", "points a minute"),
    may("late-set", "late_set_minutes", "minutes"),
    may("late-match", "late_match_minutes", "minutes"),
    may("crew-late-points", "crew_late_points", "points a minute"),
    may("withdrawn", "withdrawn", "'struck' or 'kept'"), may("format", "format", a_format));

template <>
inline constexpr auto line_of<CourtOpened> =
    line("court", of("court", "the number of a court"),
         may("called", "name", "its name in quotation marks"), may("opens", "opens", a_moment),
         may("closes", "closes", a_moment), may("features", "features", "words with commas"));

template <>
inline constexpr auto line_of<TeamEntered> = line("team", of("team", a_team),
                                                  after("in", "division", a_division),
                                                  may("club", "club", "its club's name"),
                                                  may("colour", "colour", a_colour),
                                                  may("last-pool", "last_pool", a_pool));

template <>
inline constexpr auto line_of<TeamWithdrawn> = line("withdrawn", of("team", a_team));

template <>
inline constexpr auto line_of<RosterFrozen> = line("roster", of("team", a_team),
                                                   may("numbers", "numbers", "players' numbers"));

template <>
inline constexpr auto line_of<PersonListed> = line("person", of("person", "the number of a person"),
                                                   of("role", "a role"),
                                                   may("team", "team", a_team),
                                                   may("jersey", "jersey", "a jersey number"),
                                                   flag("captain", "captain"),
                                                   flag("libero", "libero"));

template <>
inline constexpr auto line_of<ConflictDeclared> = line("conflict",
                                                       of("person", "the number of a person"),
                                                       after("with", "team", a_team));

template <>
inline constexpr auto line_of<CrewFormed> = line("crew", of("crew", "its name in quotation marks"),
                                                 may("persons", "persons", "persons' numbers"));

template <>
inline constexpr auto line_of<SeedsGiven> = line("seeds", of("division", a_division),
                                                 after("teams", "teams", a_team),
                                                 may("from", "first", "a seed"));

template <>
inline constexpr auto line_of<DrawMade> =
    line("draw", of("division", a_division), of("method", "a way to draw"),
         after("pools", "pools", "a number of pools"),
         may("seed", "seed_number", "the seed number of the lot"),
         may("prefix", "prefix", "letters for the names of matches"),
         may("cuts", "cuts", "places that matter"), flag("second-leg", "second_leg"),
         may("format", "format", a_format));

template <>
inline constexpr auto line_of<TeamMoved> = line("move-team", of("team", a_team),
                                                after("to", "pool", a_pool),
                                                may("with", "with", a_team));

template <>
inline constexpr auto line_of<BracketMade> =
    line("bracket", of("division", a_division), of("kind", "a kind of bracket"),
         after("prefix", "prefix", "letters for the names of matches"),
         may("size", "size", "a number of entrants"),
         may("from-place", "from_place", "a place in a pool"),
         may("to-place", "to_place", "a place in a pool"),
         may("pools", "pools", "names of pools with commas"), may("entrants", "entrants", a_source),
         flag("third-place", "third_place"), flag("second-final", "second_final"),
         may("best-place", "best_place", "a final place"), may("format", "format", a_format));

template <>
inline constexpr auto line_of<MatchAdded> =
    line("match", of("match", a_match), after("in", "division", a_division),
         after("first", "first", a_source), after("second", "second", a_source),
         may("format", "format", a_format), may("profile", "profile", "the id of a rule profile"));

template <>
inline constexpr auto line_of<SidesGiven> = line("sides", of("match", a_match),
                                                 after("first", "first", a_source),
                                                 after("second", "second", a_source));

template <>
inline constexpr auto line_of<DutyGiven> =
    line("duty", of("match", a_match), may("workers", "workers", a_source),
         may("crew", "crew", "a crew's name in quotation marks"),
         may("first-referee", "first_referee", "the number of a person"),
         may("second-referee", "second_referee", "the number of a person"));

template <>
inline constexpr auto line_of<MatchPlaced> = line("place", of("match", a_match),
                                                  after("court", "court", "the number of a court"),
                                                  may("at", "at", a_moment),
                                                  may("timing", "timing", "'fixed' or 'follows'"),
                                                  flag("may-start-early", "may_start_early"));

template <>
inline constexpr auto line_of<MatchMoved> = line("move", of("match", a_match),
                                                 after("court", "court", "the number of a court"),
                                                 may("at", "at", a_moment));

template <>
inline constexpr auto line_of<PlanPublished> = line("publish", of("version", "a version"));

template <>
inline constexpr auto line_of<RecordOpened> = line("record", of("match", a_match),
                                                   of("record", "the id of a record"));

template <>
inline constexpr auto line_of<ResultConfirmed> =
    line("result", of("match", a_match), of("from", "'table', 'paper' or 'signed-record'"),
         of("sets", "sets such as 25-20"), may("record", "record", "the id of a record"),
         may("head", "head", "the head hash of a record"));

template <>
inline constexpr auto line_of<ResultReopened> = line("reopen", of("match", a_match));

template <>
inline constexpr auto line_of<MatchAwarded> = line("award", of("match", a_match),
                                                   of("how", "why it is lost"),
                                                   may("against", "team", a_team),
                                                   may("sets", "sets", "sets such as 25-20"));

template <>
inline constexpr auto line_of<LateClock> = line("late", of("match", a_match),
                                                of("party", "'team' or 'crew'"), of("team", a_team),
                                                of("act", "'started', 'paused' or 'stopped'"),
                                                after("at", "at", a_moment));

template <>
inline constexpr auto line_of<DecisionMade> = line("decision", of("division", a_division),
                                                   after("pool", "pool", a_pool),
                                                   after("by", "by", "who decided"),
                                                   after("teams", "teams", a_team));

template <>
inline constexpr auto line_of<PenaltyCarried> = line("carried", of("team", a_team),
                                                     of("points", "a number of points"),
                                                     after("to", "match", a_match));

template <>
inline constexpr auto line_of<NoteWritten> = line("note", may("match", "match", a_match),
                                                  may("team", "team", a_team));

template <>
inline constexpr auto line_of<TakenBack> = line("take-back",
                                                of("fact", "the number of an earlier fact"));

template <>
inline constexpr auto line_of<TeamDescribed> = line("describe-team", of("team", a_team),
                                                    may("club", "club", "its club's name"),
                                                    may("colour", "colour", a_colour),
                                                    may("last-pool", "last_pool", a_pool));

template <>
inline constexpr auto line_of<MatchUnplaced> = line("unplace", of("match", a_match));

template <>
inline constexpr auto line_of<ConfirmerNamed> = line("results-by",
                                                     of("by", "'desk' or 'signatures'"));

// --- the check ----------------------------------------------------------------------------------

/// Every field of the kind stands in its row once, and nothing else does; what may be left out
/// comes last.
template <class Kind>
[[nodiscard]] constexpr bool says_every_field() {
    const auto& says = line_of<Kind>.says;
    bool good = says.size() == field_count<Kind>;
    bool optional = false;
    for (const Part& part : says) {
        good = good && (part.may_miss || !optional);
        optional = part.may_miss;
    }
    for_each_field<Kind>([&](const auto& field) {
        int times = 0;
        for (const Part& part : says) times += part.field == field.name ? 1 : 0;
        good = good && times == 1;
    });
    return good;
}

}  // namespace courthand::event
