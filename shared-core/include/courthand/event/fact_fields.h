// Each kind of fact of a tournament and its fields, said once, as in match/fact_fields.h: wire,
// event script (event_script/event_lines.h) and the generators of the tests go by it. A kind
// without a row does not compile, nor does a row without every field.
#pragma once

#include <cstddef>
#include <tuple>
#include <type_traits>
#include <utility>
#include <variant>

#include "courthand/event/fact.h"
#include "courthand/event/fact_row.h"

namespace courthand::event {

template <class Kind>
struct Undescribed {
    static_assert(!std::is_same_v<Kind, Kind>,
                  "a new kind of fact: give it a row in event/fact_fields.h");
};

/// The row of a kind.
template <class Kind>
inline constexpr Undescribed<Kind> described{};

template <>
inline constexpr auto described<TournamentOpened> =
    row("tournament_opened", field("name", &TournamentOpened::name, a_name),
        field("first_day", &TournamentOpened::first_day),
        field("last_day", &TournamentOpened::last_day),
        field("time_zone", &TournamentOpened::time_zone, a_word));

template <>
inline constexpr auto described<DivisionOpened> =
    row("division_opened", field("division", &DivisionOpened::division, a_word),
        field("name", &DivisionOpened::name, name_or_none),
        field("profile", &DivisionOpened::profile, a_word),
        field("chain", &DivisionOpened::chain, a_word), field("format", &DivisionOpened::format),
        field("match_minutes", &DivisionOpened::match_minutes, {0, most_minutes}),
        field("rest_minutes", &DivisionOpened::rest_minutes, {0, most_minutes}),
        field("most_in_a_row", &DivisionOpened::most_in_a_row),
        field("most_a_day", &DivisionOpened::most_a_day),
        field("late_points", &DivisionOpened::late_points, {0, most_carried}),
        field("late_set_minutes", &DivisionOpened::late_set_minutes, {0, most_minutes}),
        field("late_match_minutes", &DivisionOpened::late_match_minutes, {0, most_minutes}),
        field("crew_late_points", &DivisionOpened::crew_late_points, {0, most_carried}),
        field("withdrawn", &DivisionOpened::withdrawn));

template <>
inline constexpr auto described<CourtOpened> =
    row("court_opened", field("court", &CourtOpened::court, {1, most_courts}),
        field("name", &CourtOpened::name, name_or_none),
        field("opens", &CourtOpened::opens, {true}), field("closes", &CourtOpened::closes, {true}),
        field("features", &CourtOpened::features, {most_features, a_word}));

template <>
inline constexpr auto described<TeamEntered> =
    row("team_entered", field("team", &TeamEntered::team, a_name),
        field("division", &TeamEntered::division, a_word),
        field("club", &TeamEntered::club, name_or_none),
        field("colour", &TeamEntered::colour, colour_or_none),
        field("last_pool", &TeamEntered::last_pool, word_or_none));

template <>
inline constexpr auto described<TeamWithdrawn> = row("team_withdrawn",
                                                     field("team", &TeamWithdrawn::team, a_name));

template <>
inline constexpr auto described<RosterFrozen> = row("roster_frozen",
                                                    field("team", &RosterFrozen::team, a_name),
                                                    field("numbers", &RosterFrozen::numbers,
                                                          {most_on_roster, {0, Jersey::largest}}));

template <>
inline constexpr auto described<PersonListed> =
    row("person_listed", field("person", &PersonListed::person, {1, most_persons}),
        field("role", &PersonListed::role), field("team", &PersonListed::team, name_or_none),
        field("jersey", &PersonListed::jersey), field("captain", &PersonListed::captain),
        field("libero", &PersonListed::libero));

template <>
inline constexpr auto described<ConflictDeclared> =
    row("conflict_declared", field("person", &ConflictDeclared::person, {1, most_persons}),
        field("team", &ConflictDeclared::team, a_name));

template <>
inline constexpr auto described<CrewFormed> = row("crew_formed",
                                                  field("crew", &CrewFormed::crew, a_name),
                                                  field("persons", &CrewFormed::persons,
                                                        {most_in_crew, {1, most_persons}}));

template <>
inline constexpr auto described<SeedsGiven> =
    row("seeds_given", field("division", &SeedsGiven::division, a_word),
        field("first", &SeedsGiven::first, {1, most_teams}),
        field("teams", &SeedsGiven::teams, {most_listed, a_name, 1}));

template <>
inline constexpr auto described<DrawMade> = row(
    "draw_made", field("division", &DrawMade::division, a_word), field("method", &DrawMade::method),
    field("pools", &DrawMade::pools, {1, 255}), field("seed_number", &DrawMade::seed_number),
    field("prefix", &DrawMade::prefix, word_or_none),
    field("cuts", &DrawMade::cuts, {most_cuts, {1, 255}}), field("format", &DrawMade::format),
    field("second_leg", &DrawMade::second_leg));

template <>
inline constexpr auto described<TeamMoved> = row("team_moved",
                                                 field("team", &TeamMoved::team, a_name),
                                                 field("pool", &TeamMoved::pool, a_word),
                                                 field("with", &TeamMoved::with, name_or_none));

template <>
inline constexpr auto described<BracketMade> =
    row("bracket_made", field("division", &BracketMade::division, a_word),
        field("kind", &BracketMade::kind), field("prefix", &BracketMade::prefix, a_word),
        field("size", &BracketMade::size, {0, most_teams}),
        field("from_place", &BracketMade::from_place), field("to_place", &BracketMade::to_place),
        field("pools", &BracketMade::pools, {most_listed, a_word}),
        field("entrants", &BracketMade::entrants, {most_listed, {}}),
        field("third_place", &BracketMade::third_place),
        field("second_final", &BracketMade::second_final),
        field("best_place", &BracketMade::best_place, {1, most_teams}),
        field("format", &BracketMade::format));

template <>
inline constexpr auto described<MatchAdded> =
    row("match_added", field("match", &MatchAdded::match, a_word),
        field("division", &MatchAdded::division, a_word), field("first", &MatchAdded::first),
        field("second", &MatchAdded::second), field("format", &MatchAdded::format),
        field("profile", &MatchAdded::profile, word_or_none));

template <>
inline constexpr auto described<SidesGiven> = row("sides_given",
                                                  field("match", &SidesGiven::match, a_word),
                                                  field("first", &SidesGiven::first),
                                                  field("second", &SidesGiven::second));

template <>
inline constexpr auto described<DutyGiven> = row(
    "duty_given", field("match", &DutyGiven::match, a_word),
    field("workers", &DutyGiven::workers, {true}), field("crew", &DutyGiven::crew, name_or_none),
    field("first_referee", &DutyGiven::first_referee, {0, most_persons}),
    field("second_referee", &DutyGiven::second_referee, {0, most_persons}));

template <>
inline constexpr auto described<MatchPlaced> = row(
    "match_placed", field("match", &MatchPlaced::match, a_word),
    field("court", &MatchPlaced::court, {1, most_courts}), field("at", &MatchPlaced::at, {true}),
    field("timing", &MatchPlaced::timing), field("may_start_early", &MatchPlaced::may_start_early));

template <>
inline constexpr auto described<MatchMoved> =
    row("match_moved", field("match", &MatchMoved::match, a_word),
        field("court", &MatchMoved::court, {1, most_courts}), field("at", &MatchMoved::at, {true}));

template <>
inline constexpr auto described<PlanPublished> =
    row("plan_published", field("version", &PlanPublished::version, {1, most_versions}));

template <>
inline constexpr auto described<RecordOpened> = row("record_opened",
                                                    field("match", &RecordOpened::match, a_word),
                                                    field("record", &RecordOpened::record));

template <>
inline constexpr auto described<ResultConfirmed> =
    row("result_confirmed", field("match", &ResultConfirmed::match, a_word),
        field("from", &ResultConfirmed::from),
        field("sets", &ResultConfirmed::sets, {most_sets, {}, 1}),
        field("record", &ResultConfirmed::record), field("head", &ResultConfirmed::head));

template <>
inline constexpr auto described<ResultReopened> =
    row("result_reopened", field("match", &ResultReopened::match, a_word));

template <>
inline constexpr auto described<MatchAwarded> =
    row("match_awarded", field("match", &MatchAwarded::match, a_word),
        field("how", &MatchAwarded::how), field("team", &MatchAwarded::team, name_or_none),
        field("sets", &MatchAwarded::sets, {most_sets, {}}));

template <>
inline constexpr auto described<LateClock> = row("late_clock",
                                                 field("match", &LateClock::match, a_word),
                                                 field("team", &LateClock::team, a_name),
                                                 field("party", &LateClock::party),
                                                 field("act", &LateClock::act),
                                                 field("at", &LateClock::at));

template <>
inline constexpr auto described<DecisionMade> =
    row("decision_made", field("division", &DecisionMade::division, a_word),
        field("pool", &DecisionMade::pool, a_word), field("by", &DecisionMade::by),
        field("teams", &DecisionMade::teams, {most_listed, a_name, 2}));

template <>
inline constexpr auto described<PenaltyCarried> =
    row("penalty_carried", field("team", &PenaltyCarried::team, a_name),
        field("points", &PenaltyCarried::points, {1, most_carried}),
        field("match", &PenaltyCarried::match, a_word));

template <>
inline constexpr auto described<NoteWritten> = row("note_written",
                                                   field("match", &NoteWritten::match,
                                                         word_or_none),
                                                   field("team", &NoteWritten::team, name_or_none));

template <>
inline constexpr auto described<TakenBack> = row("taken_back",
                                                 field("fact", &TakenBack::fact, {1, most_facts}));

template <>
inline constexpr auto described<TeamDescribed> =
    row("team_described", field("team", &TeamDescribed::team, a_name),
        field("club", &TeamDescribed::club, name_or_none),
        field("colour", &TeamDescribed::colour, colour_or_none),
        field("last_pool", &TeamDescribed::last_pool, word_or_none));

template <>
inline constexpr auto described<MatchUnplaced> = row("match_unplaced",
                                                     field("match", &MatchUnplaced::match, a_word));

template <>
inline constexpr auto described<ConfirmerNamed> = row("confirmer_named",
                                                      field("by", &ConfirmerNamed::by));

// --- walking along the rows ---------------------------------------------------------------------

template <class Kind>
inline constexpr std::size_t field_count =
    std::tuple_size_v<std::remove_const_t<decltype(described<Kind>.fields)>>;

/// Calls `visit(field)` for each field of a kind in its order.
template <class Kind, class Visit>
constexpr void for_each_field(Visit&& visit) {
    std::apply([&](const auto&... fields) { (visit(fields), ...); }, described<Kind>.fields);
}

inline constexpr std::size_t kind_count = std::variant_size_v<Fact>;

/// Calls `visit(std::type_identity<Kind>{})` for each kind in the order of `Fact`.
template <class Visit>
constexpr void for_each_kind(Visit&& visit) {
    [&]<std::size_t... kind>(std::index_sequence<kind...>) {
        (visit(std::type_identity<std::variant_alternative_t<kind, Fact>>{}), ...);
    }
    (std::make_index_sequence<kind_count>{});
}

}  // namespace courthand::event
