// What each kind of fact is called and which fields it has, said once: one row for each kind. The
// wire goes by these names, a script by the same fields (script/fact_lines.h), and the generators
// of the tests draw them. A kind without a row does not compile, nor does a row without every
// field.
//
// A kind is *regular* when its message holds the fields of its struct, each by itself. The others
// are written *by hand* where they are read, written and drawn; their row says why.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <variant>

#include "courthand/match/choices.h"
#include "courthand/match/fact.h"

namespace courthand {

// --- what may stand in a field ------------------------------------------------------------------

/// Most values say all by their type.
template <class Value>
struct Bounds {};

/// A jersey number that must be worn, or may be none.
template <>
struct Bounds<Jersey> {
    bool may_be_none = false;
};
inline constexpr Bounds<Jersey> or_none{true};

/// A number from `least` to `most` as people and the wire say it; the struct counts from `least`
/// when it is an index, so that box 1 is kept as 0.
template <>
struct Bounds<std::uint8_t> {
    std::uint8_t least = 0;
    std::uint8_t most = 255;
    bool index = false;

    /// The number that is said for the value kept.
    [[nodiscard]] constexpr unsigned said(std::uint8_t kept) const noexcept {
        return index ? kept + static_cast<unsigned>(least) : kept;
    }
    [[nodiscard]] constexpr std::uint8_t kept(std::uint8_t said) const noexcept {
        return index ? static_cast<std::uint8_t>(said - least) : said;
    }
};

/// The first `allowed` values of a choice; `otherwise` says what is wrong with the rest.
template <Choice Value>
struct Bounds<Value> {
    std::size_t allowed = choice_count<Value>;
    std::string_view otherwise;

    [[nodiscard]] constexpr bool allows(Value value) const noexcept {
        return static_cast<std::size_t>(value) < allowed;
    }
};

// --- rows ---------------------------------------------------------------------------------------

template <class Kind, class Member>
struct Field {
    using Value = Member;

    std::string_view name;
    Member Kind::*member = nullptr;
    Bounds<Member> bounds{};
};

template <class Kind, class Value>
[[nodiscard]] constexpr Field<Kind, Value> field(std::string_view name, Value Kind::*member,
                                                 std::type_identity_t<Bounds<Value>> bounds = {}) {
    return {name, member, bounds};
}

template <class... Fields>
struct Regular {
    std::string_view name;  ///< of the kind, as in `Fact` of fact.proto
    std::tuple<Fields...> fields;
};

struct ByHand {
    std::string_view name;
    std::string_view why;
};

template <class Kind, class... Values>
[[nodiscard]] constexpr auto regular(std::string_view name, Field<Kind, Values>... fields) {
    static_assert((std::is_empty_v<Kind> ? 1 : 0) + (sizeof(Values) + ... + 0) == sizeof(Kind),
                  "a field of this kind has no name in its row");
    return Regular<Field<Kind, Values>...>{name, {fields...}};
}

template <class Kind>
struct Undescribed {
    static_assert(!std::is_same_v<Kind, Kind>,
                  "a new kind of fact: give it a row in match/fact_fields.h");
};

/// The row of a kind.
template <class Kind>
inline constexpr Undescribed<Kind> described{};

template <>
inline constexpr auto described<MatchOpened> = regular("match_opened",
                                                       field("format", &MatchOpened::format));

template <>
inline constexpr ByHand described<Roster>{"team_roster", "a list of numbers"};

template <>
inline constexpr auto described<Toss> = regular("toss", field("serves", &Toss::serves),
                                                field("left", &Toss::left));

template <>
inline constexpr auto described<SetStarted> =
    regular("set_started", field("number", &SetStarted::number, {1, MatchFormat::most_sets}));

template <>
inline constexpr ByHand described<LineUp>{"line_up", "a list of places and a list of boxes"};

template <>
inline constexpr auto described<LiberoBoxSettled> =
    regular("libero_box_settled", field("team", &LiberoBoxSettled::team),
            field("box", &LiberoBoxSettled::box, {1, libero_boxes, true}),
            field("entry", &LiberoBoxSettled::entry));

template <>
inline constexpr auto described<LineUpChecked> = regular("line_up_checked",
                                                         field("team", &LineUpChecked::team));

template <>
inline constexpr auto described<Whistle> = regular<Whistle>("whistle");

template <>
inline constexpr ByHand described<Serve>{"serve", "its team counts only beside a number"};

template <>
inline constexpr auto described<RallyWon> = regular("rally_won", field("team", &RallyWon::team));

template <>
inline constexpr auto described<Replay> = regular<Replay>("replay");

template <>
inline constexpr ByHand described<PositionalFault>{"positional_fault",
                                                   "its neighbour counts only beside a player"};

template <>
inline constexpr auto described<LiberoReplacement> =
    regular("libero_replacement", field("team", &LiberoReplacement::team),
            field("in", &LiberoReplacement::in), field("out", &LiberoReplacement::out));

template <>
inline constexpr ByHand described<Substitution>{"substitution", "a list of pairs"};

template <>
inline constexpr auto described<ExceptionalSubstitution> =
    regular("exceptional_substitution", field("team", &ExceptionalSubstitution::team),
            field("in", &ExceptionalSubstitution::in), field("out", &ExceptionalSubstitution::out),
            field("cause", &ExceptionalSubstitution::cause));

template <>
inline constexpr auto described<TimeOut> = regular("time_out", field("team", &TimeOut::team));

template <>
inline constexpr auto described<GameCaptain> = regular("game_captain",
                                                       field("team", &GameCaptain::team),
                                                       field("player", &GameCaptain::player));

template <>
inline constexpr auto described<LiberoUnable> = regular("libero_unable",
                                                        field("team", &LiberoUnable::team),
                                                        field("libero", &LiberoUnable::libero),
                                                        field("cause", &LiberoUnable::cause));

template <>
inline constexpr auto described<Redesignation> = regular("redesignation",
                                                         field("team", &Redesignation::team),
                                                         field("out", &Redesignation::out),
                                                         field("in", &Redesignation::in));

template <>
inline constexpr auto described<Misconduct> = regular("misconduct",
                                                      field("team", &Misconduct::team),
                                                      field("person", &Misconduct::person, or_none),
                                                      field("sanction", &Misconduct::sanction));

template <>
inline constexpr auto described<Delay> =
    regular("delay", field("team", &Delay::team),
            field("sanction", &Delay::sanction, {2, "a delay brings a warning or a penalty only"}));

template <>
inline constexpr auto described<ImproperRequest> = regular("improper_request",
                                                           field("team", &ImproperRequest::team));

template <>
inline constexpr auto described<Injury> = regular("injury", field("team", &Injury::team),
                                                  field("player", &Injury::player));

template <>
inline constexpr auto described<Recovery> = regular("recovery", field("team", &Recovery::team),
                                                    field("player", &Recovery::player));

template <>
inline constexpr auto described<CourtSwitch> = regular<CourtSwitch>("court_switch");

template <>
inline constexpr auto described<Interval> = regular<Interval>("interval");

template <>
inline constexpr auto described<Interrupted> = regular<Interrupted>("interrupted");

template <>
inline constexpr auto described<Resumed> = regular("resumed", field("how", &Resumed::how));

template <>
inline constexpr auto described<Ruling> = regular("ruling", field("decision", &Ruling::decision),
                                                  field("reason", &Ruling::reason),
                                                  field("team", &Ruling::team));

template <>
inline constexpr auto described<Incomplete> = regular("incomplete",
                                                      field("team", &Incomplete::team),
                                                      field("scope", &Incomplete::scope));

template <>
inline constexpr auto described<Default> = regular("default_loss", field("team", &Default::team));

template <>
inline constexpr auto described<Protest> = regular("protest", field("team", &Protest::team));

template <>
inline constexpr auto described<ScoreCorrection> = regular("score_correction",
                                                           field("score", &ScoreCorrection::score));

template <>
inline constexpr auto described<Note> = regular("note", field("kind", &Note::kind));

template <>
inline constexpr auto described<Signature> = regular("signed_by", field("by", &Signature::by));

// --- walking along the rows ---------------------------------------------------------------------

template <class Kind>
concept DescribedByHand = std::is_same_v<std::remove_const_t<decltype(described<Kind>)>, ByHand>;

template <class Kind>
concept RegularKind = !DescribedByHand<Kind>;

template <RegularKind Kind>
inline constexpr std::size_t field_count =
    std::tuple_size_v<std::remove_const_t<decltype(described<Kind>.fields)>>;

/// Calls `visit(field, place)` for each field of a regular kind in its order; `place` converts to
/// a constant that counts from 0.
template <RegularKind Kind, class Visit>
constexpr void for_each_field(Visit&& visit) {
    [&]<std::size_t... place>(std::index_sequence<place...>) {
        (visit(std::get<place>(described<Kind>.fields),
               std::integral_constant<std::size_t, place>{}),
         ...);
    }
    (std::make_index_sequence<field_count<Kind>>{});
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

}  // namespace courthand
