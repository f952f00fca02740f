#include "server/alerts/catalogue.h"

#include <algorithm>
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
// Where the profile fixes no time for a line-up, it is fetched so long before the interval ends.
constexpr seconds fetched{60};
// Set 1 is announced after the toss, when the official warm-up begins. Common practice, no source.
constexpr seconds warm_up{600};

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
constexpr auto waits = OnceOpen::waits;
constexpr auto presses = OnceOpen::presses;

constexpr std::string_view practice = "common practice, no source";

// clang-format off
constexpr std::array<Row, kind_count> rows{{
    // kind                        word                      severity  later     armed   clears               open     raise    clear act within
    {Kind::illegal_replacement,    "illegal-replacement",    critical, critical, prompt, Clears::by_ruling,   waits,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::libero_differs,         "libero-differs",         high,     critical, alert,  Clears::by_ruling,   waits,   at_once,    gone, two_minutes,    {}, {}},
    {Kind::libero_box_unconfirmed, "libero-box-unconfirmed", high,     high,     prompt, Clears::by_itself,   waits,   holds,      gone, two_minutes,    {}, {}},
    {Kind::lineup_missing,         "lineup-missing",         high,     high,     prompt, Clears::by_itself,   presses, holds,      gone, two_minutes,    "The line-up is not in", practice},
    {Kind::lineup_wrong,           "lineup-wrong",           high,     critical, prompt, Clears::by_itself,   waits,   holds,      gone, two_minutes,    {}, {}},
    {Kind::captain_missing,        "captain-missing",        high,     high,     prompt, Clears::by_itself,   waits,   holds,      gone, two_minutes,    {}, {}},
    {Kind::wrong_server,           "wrong-server",           critical, critical, prompt, Clears::by_ruling,   waits,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::illegal_substitution,   "illegal-substitution",   critical, critical, prompt, Clears::by_ruling,   waits,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::barred_player,          "barred-player",          critical, critical, alert,  Clears::by_ruling,   waits,   at_once,    gone, same_dead_ball, {}, {}},
    {Kind::redesignation_fault,    "redesignation-fault",    high,     critical, alert,  Clears::by_ruling,   waits,   at_once,    gone, two_minutes,    {}, {}},
    {Kind::team_short,             "team-short",             critical, critical, alert,  Clears::by_itself,   waits,   holds,      gone, same_dead_ball, {}, {}},
    {Kind::switch_missed,          "switch-missed",          high,     high,     prompt, Clears::by_itself,   waits,   holds,      gone, two_minutes,    {}, {}},
    {Kind::score_impossible,       "score-impossible",       high,     high,     prompt, Clears::when_seen,   waits,   at_once,    gone, two_minutes,    {}, {}},
    {Kind::redesignation_made,     "redesignation-made",     medium,   medium,   prompt, Clears::when_seen,   waits,   holds,      gone, ten_minutes,    "A libero was re-designated", practice},
    {Kind::record_forked,          "record-forked",          critical, critical, prompt, Clears::by_ruling,   waits,   at_once,    gone, same_dead_ball, "Two devices have written this match; a person must choose", practice},
    {Kind::writer_recovered,       "writer-recovered",       high,     high,     prompt, Clears::when_seen,   waits,   at_once,    gone, two_minutes,    "The grant of this match was lost when the database was put back, and a table went on with it: see that it is the one at the court", practice},
    {Kind::court_not_seen,         "court-not-seen",         low,      high,     prompt, Clears::by_itself,   waits,   at_once,    gone, five_minutes,   "This court is not seen; its device may be recording without network", practice},
    {Kind::no_court_seen,          "no-court-seen",          high,     high,     prompt, Clears::by_itself,   waits,   at_once,    gone, five_minutes,   "No court is seen: the network may be down; the tables go on recording", practice},
    {Kind::take_over_asked,        "take-over-asked",        high,     high,     prompt, Clears::by_itself,   waits,   at_once,    at_once, two_minutes, "Another device asks to go on with this match", practice},
    {Kind::entries_refused,        "entries-refused",        medium,   medium,   prompt, Clears::by_itself,   waits,   at_once,    gone, ten_minutes,    "The server could not take entries of this table", practice},
    {Kind::too_many_alerts,        "too-many-alerts",        high,     high,     prompt, Clears::by_itself,   waits,   at_once,    gone, ten_minutes,    "There are more alerts than the server can show; end some of them", practice},
    {Kind::court_crowded,          "court-crowded",          medium,   medium,   prompt, Clears::by_itself,   waits,   holds,      gone, ten_minutes,    "More than one match is being played on this court by their records", practice},
}};
// clang-format on

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
        if (rows[i].kind.place() != i + 1) return false;
    return true;
}
static_assert(in_order(), "a row stands at the place of its kind");

}  // namespace

std::span<const Row, kind_count> all_rows() noexcept {
    return rows;
}

const Row& row_of(Kind kind) noexcept {
    assert(kind != Kind{});
    return rows[kind.place() - 1];
}

std::optional<Kind> kind_of(std::string_view word) noexcept {
    for (const Row& row : rows)
        if (row.word == word) return row.kind;
    return std::nullopt;
}

std::optional<Kind> kind_of(Reason reason) noexcept {
    const RuleAlert told = describe(reason).alert;
    if (told == RuleAlert::none) return std::nullopt;
    return told;
}

seconds lineup_due(const Rules& rules, std::uint8_t set) noexcept {
    const bool first = set == 1;
    const seconds whole = first ? warm_up : seconds{rules.interval_seconds};
    const seconds before_end{first ? rules.first_lineup_due_seconds
                                   : rules.next_lineup_due_seconds};
    return std::max(whole - (before_end > seconds{0} ? before_end : fetched), seconds{0});
}

std::span<const SilenceStep> silence_in_play() noexcept {
    return in_play;
}
std::span<const SilenceStep> silence_between_sets() noexcept {
    return between_sets;
}

}  // namespace courthand::server::alerts
