#include "server/alerts/catalogue.h"

#include <array>
#include <cassert>

namespace courthand::server::alerts {

namespace {

using std::chrono::seconds;

// A condition must hold this long, so that a slip of the finger raises nothing …
constexpr seconds holds{5};
// … and be gone this long, so that the list does not flicker.
constexpr seconds gone{10};
// A latched fault has happened: there is nothing to wait for.
constexpr seconds at_once{0};
// In the interval nobody is to be disturbed while the line-up may still come: 180 s less 60.
constexpr seconds lineup_due{120};

constexpr seconds same_dead_ball{30};
constexpr seconds two_minutes{120};
constexpr seconds five_minutes{300};
constexpr seconds ten_minutes{600};

constexpr auto critical = Severity::critical;
constexpr auto high = Severity::high;
constexpr auto medium = Severity::medium;
constexpr auto low = Severity::low;
constexpr auto prompt = Layer::prompt;
constexpr auto alert = Layer::alert;

constexpr std::string_view practice = "common practice, no source";

// clang-format off
constexpr std::array<Row, kind_count> rows{{
    // kind                       word                      severity  later     armed   clears               raise    clear act within
    {Kind::illegal_replacement,    "illegal-replacement",    critical, critical, prompt, Clears::by_ruling,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::libero_differs,         "libero-differs",         high,     critical, alert,  Clears::by_ruling,   at_once,    gone, two_minutes,    {}, {}},
    {Kind::libero_box_unconfirmed, "libero-box-unconfirmed", high,     high,     prompt, Clears::by_itself,   holds,      gone, two_minutes,    {}, {}},
    {Kind::lineup_missing,         "lineup-missing",         high,     high,     prompt, Clears::by_itself,   lineup_due, gone, two_minutes,    "The line-up is not in", practice},
    {Kind::lineup_wrong,           "lineup-wrong",           high,     critical, prompt, Clears::by_itself,   holds,      gone, two_minutes,    {}, {}},
    {Kind::captain_missing,        "captain-missing",        high,     high,     prompt, Clears::by_itself,   holds,      gone, two_minutes,    {}, {}},
    {Kind::wrong_server,           "wrong-server",           critical, critical, prompt, Clears::by_ruling,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::illegal_substitution,   "illegal-substitution",   critical, critical, prompt, Clears::by_ruling,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::barred_player,          "barred-player",          critical, critical, alert,  Clears::by_ruling,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::redesignation_fault,    "redesignation-fault",    high,     critical, alert,  Clears::by_ruling,   at_once,    gone, two_minutes,    {}, {}},
    {Kind::redesignation_made,     "redesignation-made",     medium,   medium,   prompt, Clears::when_seen,   holds,      gone, ten_minutes,    "A libero was re-designated", practice},
    {Kind::team_short,             "team-short",             critical, critical, alert,  Clears::by_itself,   holds,      gone, same_dead_ball, {}, {}},
    {Kind::switch_missed,          "switch-missed",          high,     high,     prompt, Clears::by_itself,   holds,      gone, two_minutes,    {}, {}},
    {Kind::score_impossible,       "score-impossible",       high,     high,     prompt, Clears::when_seen,   at_once,     gone, two_minutes,    {}, {}},
    {Kind::record_forked,          "record-forked",          critical, critical, prompt, Clears::by_ruling,   at_once,    gone, same_dead_ball, "Two devices have written this match; a person must choose", practice},
    {Kind::court_not_seen,         "court-not-seen",         low,      high,     prompt, Clears::by_itself,   at_once,    gone, five_minutes,   "This court is not seen; its device may be recording without network", practice},
    {Kind::no_court_seen,          "no-court-seen",          high,     high,     prompt, Clears::by_itself,   at_once,    gone, five_minutes,   "No court is seen: the network may be down; the tables go on recording", practice},
    {Kind::take_over_asked,        "take-over-asked",        high,     high,     prompt, Clears::by_itself,   at_once,    at_once, two_minutes, "Another device asks to go on with this match", practice},
    {Kind::entries_refused,        "entries-refused",        medium,   medium,   prompt, Clears::by_itself,   at_once,    gone, ten_minutes,    "The server could not take entries of this table", practice},
    {Kind::too_many_alerts,        "too-many-alerts",        high,     high,     prompt, Clears::by_itself,   at_once,    gone, ten_minutes,    "There are more alerts than the server can show; end some of them", practice},
}};
// clang-format on

struct ReasonKind {
    Reason reason{};
    Kind kind{};
};

// Reasons without a row are settled at the table: requests refused, sanctions written down, late
// replacements that bring at most a word to the captain.
constexpr std::array reason_kinds{
    ReasonKind{Reason::libero_no_completed_rally, Kind::illegal_replacement},
    ReasonKind{Reason::libero_wrong_returner, Kind::illegal_replacement},
    ReasonKind{Reason::libero_front_row, Kind::illegal_replacement},
    ReasonKind{Reason::libero_two_on_court, Kind::illegal_replacement},
    ReasonKind{Reason::libero_not_designated, Kind::illegal_replacement},
    ReasonKind{Reason::libero_second_serving_position, Kind::illegal_replacement},
    ReasonKind{Reason::libero_may_not_serve, Kind::illegal_replacement},
    ReasonKind{Reason::libero_before_check, Kind::illegal_replacement},
    ReasonKind{Reason::libero_before_switch, Kind::illegal_replacement},
    ReasonKind{Reason::libero_unable, Kind::illegal_replacement},
    ReasonKind{Reason::libero_during_replay, Kind::illegal_replacement},
    ReasonKind{Reason::libero_for_disqualified, Kind::illegal_replacement},
    ReasonKind{Reason::libero_not_starting, Kind::illegal_replacement},

    ReasonKind{Reason::designation_changed, Kind::libero_differs},
    ReasonKind{Reason::designation_mixed, Kind::libero_differs},
    ReasonKind{Reason::libero_limit, Kind::libero_differs},
    ReasonKind{Reason::libero_box_unconfirmed, Kind::libero_box_unconfirmed},

    ReasonKind{Reason::redesignation_not_open, Kind::redesignation_fault},
    ReasonKind{Reason::redesignation_of_replaced_player, Kind::redesignation_fault},
    ReasonKind{Reason::redesignation_of_player_on_court, Kind::redesignation_fault},
    ReasonKind{Reason::redesignation_of_barred_player, Kind::redesignation_fault},
    ReasonKind{Reason::redesignated_player_returns, Kind::barred_player},
    ReasonKind{Reason::redesignated_player_other_role, Kind::barred_player},
    ReasonKind{Reason::player_barred, Kind::barred_player},

    ReasonKind{Reason::wrong_server, Kind::wrong_server},

    ReasonKind{Reason::libero_in_substitution, Kind::illegal_substitution},
    ReasonKind{Reason::sub_limit, Kind::illegal_substitution},
    ReasonKind{Reason::sub_wrong_pair, Kind::illegal_substitution},
    ReasonKind{Reason::sub_reentry_used, Kind::illegal_substitution},
    ReasonKind{Reason::sub_wrong_position, Kind::illegal_substitution},
    ReasonKind{Reason::sub_not_on_roster, Kind::illegal_substitution},
    ReasonKind{Reason::sub_player_on_court, Kind::illegal_substitution},
    ReasonKind{Reason::sub_player_not_on_court, Kind::illegal_substitution},
    ReasonKind{Reason::exceptional_not_allowed, Kind::illegal_substitution},

    ReasonKind{Reason::captain_missing, Kind::captain_missing},
    ReasonKind{Reason::team_short, Kind::team_short},

    ReasonKind{Reason::lineup_missing, Kind::lineup_missing},
    ReasonKind{Reason::lineup_duplicate, Kind::lineup_wrong},
    ReasonKind{Reason::lineup_not_on_roster, Kind::lineup_wrong},
    ReasonKind{Reason::lineup_libero_as_starter, Kind::lineup_wrong},
    ReasonKind{Reason::player_unregistered, Kind::lineup_wrong},

    ReasonKind{Reason::switch_due, Kind::switch_missed},
    ReasonKind{Reason::score_impossible, Kind::score_impossible},
};

constexpr std::array in_play{
    SilenceStep{seconds{60}, low},
    SilenceStep{seconds{180}, medium},
    SilenceStep{seconds{480}, high},
};
constexpr std::array between_sets{
    SilenceStep{seconds{480}, medium},
};

constexpr bool in_order() {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (static_cast<std::size_t>(rows[i].kind) != i) return false;
    return true;
}
static_assert(in_order(), "a row stands at the place of its kind");

}  // namespace

const Row& row_of(Kind kind) noexcept {
    return rows[static_cast<std::size_t>(kind)];
}

std::optional<Kind> kind_of(std::string_view word) noexcept {
    for (const Row& row : rows)
        if (row.word == word) return row.kind;
    return std::nullopt;
}

std::optional<Kind> kind_of(Reason reason) noexcept {
    for (const ReasonKind& row : reason_kinds)
        if (row.reason == reason) return row.kind;
    return std::nullopt;
}

std::span<const SilenceStep> silence_in_play() noexcept {
    return in_play;
}
std::span<const SilenceStep> silence_between_sets() noexcept {
    return between_sets;
}

}  // namespace courthand::server::alerts
