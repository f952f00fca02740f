// Why the rules object: one word for each idea of the rules. The words are stable: scripts, records
// and alerts name them. All that is known of a reason stands in its row of one table (`describe`).
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace courthand {

enum class Reason : std::uint8_t {
    // the libero and his replacements
    libero_no_completed_rally,
    libero_wrong_returner,
    libero_front_row,
    libero_two_on_court,
    libero_not_designated,
    libero_second_serving_position,
    libero_may_not_serve,
    libero_late_replacement,
    libero_before_check,
    libero_before_switch,
    libero_in_substitution,
    libero_unable,
    libero_during_replay,
    libero_for_disqualified,
    libero_not_starting,
    libero_out_of_place,
    // who is a libero
    designation_changed,
    designation_mixed,
    libero_box_unconfirmed,
    libero_limit,
    redesignation_not_open,
    redesignation_of_replaced_player,
    redesignation_of_player_on_court,
    redesignation_of_barred_player,
    redesignated_player_returns,
    redesignated_player_other_role,
    // serving order
    wrong_server,
    positional_fault,
    positional_fault_of_servers,
    // substitutions
    sub_limit,
    sub_wrong_pair,
    sub_reentry_used,
    sub_wrong_position,
    sub_not_on_roster,
    sub_second_request,
    sub_no_completed_rally,
    sub_after_rejection,
    sub_player_on_court,
    sub_player_not_on_court,
    sub_before_set,
    sub_required,
    exceptional_not_needed,
    exceptional_not_allowed,
    // people
    player_barred,
    player_unregistered,
    captain_missing,
    captain_is_libero,
    captain_not_on_court,
    roster_too_long,
    team_short,
    // line-up sheets
    lineup_missing,
    lineup_duplicate,
    lineup_not_on_roster,
    lineup_libero_as_starter,
    lineup_changed,
    // interruptions and sanctions
    improper_request,
    timeout_limit,
    delay_scale,
    misconduct_scale,
    recovery_not_open,
    // course of the match
    switch_due,
    switch_not_due,
    score_impossible,
    out_of_sequence,
};

inline constexpr std::size_t reason_count = static_cast<std::size_t>(Reason::out_of_sequence) + 1;

/// 1 to 4 as on the head official's board: result or safety at stake now; needed by the next dead
/// ball; within ten minutes; by the end of the match.
enum class Severity : std::uint8_t { critical = 1, high, medium, low };

/// How a reason lives once it is raised.
enum class Life : std::uint8_t {
    act,        ///< a team did it: armed until the service hit, gone if the places are put right
    condition,  ///< it is so: looked at when the service is authorised and when it is hit
    request,    ///< asked for or declared: a referee has to answer at once
    service,    ///< the service was hit by the wrong person: there from the hit on
    sheet,      ///< written on a line-up sheet: goes away with a corrected one
    notice,     ///< said once: gone when the next rally is decided
};

/// From which moment it counts.
enum class Counts : std::uint8_t {
    at_once,
    at_contact,      ///< with the service hit
    as_replacement,  ///< as the profile says of an illegal replacement
    as_front_row,    ///< as the profile says of a libero in the front row
};

/// What the rules answer while no service has been hit with it.
enum class Answer : std::uint8_t {
    delay,              ///< put right, with the next step of the team's delay scale
    delay_when_again,   ///< the captain is told the first time, a delay afterwards
    delay_or_improper,  ///< a delay, or an improper request where the profile says so
    improper,           ///< refused; written down the first time, a delay afterwards
    refuse,
    correct,
    ask,
    incomplete,
    point,  ///< the service has been hit: a point at once
};

/// What it costs once the service has been hit with it.
enum class Costs : std::uint8_t {
    nothing,
    rally,  ///< the rally, and the points won with it
    sets,   ///< also what was won with it in finished sets
};

/// While what is so the fault lasts: looked at before each service, and in each rally begun.
enum class Lasts : std::uint8_t {
    in_place,        ///< the player who came in stands where he was put
    until_answered,  ///< whoever stands where
    this_rally,      ///< a call on one rally
    serving,         ///< this libero serves
    other_slot,      ///< this libero serves, and not from his place in the order
    out_of_turn,     ///< this player serves, and it is not for him to serve
    in_front_row,    ///< this libero stands there
    not_allowed,     ///< this player is on court, or on the sheet as libero
    not_listed,      ///< likewise, and he is on no team list
    six_twice,       ///< this number has two of the six places
    six_or_box,      ///< this number has one of the six places, or a box
    on_the_sheet,    ///< until another sheet comes, whoever comes in for whom
    libero_leads,    ///< no game captain but a libero
    nobody_leads,    ///< no game captain
    sheet_missing,
    box_blank,
    place_empty,
    not_switched,
};

/// Which acts or things a reason is about.
enum class Group : std::uint8_t {
    replacements,
    designations,  ///< who is a libero
    services,      ///< who serves
    positions,     ///< who stands where at the hit
    requests,      ///< of an interruption: a delay for one bars the team from the next
    exceptions,    ///< exceptional substitution and recovery
    presence,      ///< who takes part
    captains,
    sheets,
    sanctions,
    course,
};

/// Who acts on it.
enum class Actor : std::uint8_t { table, second_referee, first_referee };

/// The alerts of the rules: what a reason is told as on the head official's board. `none`: it is
/// settled at the table. The alerts of the venue are the server's.
enum class RuleAlert : std::uint8_t {
    none,
    illegal_replacement,
    libero_differs,
    libero_box_unconfirmed,
    lineup_missing,
    lineup_wrong,
    captain_missing,
    wrong_server,
    illegal_substitution,
    barred_player,
    redesignation_fault,
    team_short,
    switch_missed,
    score_impossible,
};
inline constexpr std::size_t rule_alert_count =
    static_cast<std::size_t>(RuleAlert::score_impossible) + 1;

/// The families of published codes that a reason may cite.
enum class Family : std::uint8_t {
    international,
    us_domestic,
    us_high_school,
    us_college_women,
};
inline constexpr std::size_t family_count = 4;

/// All that is known of a reason. No other place tells one reason from another, but for the judge
/// that raises it.
struct ReasonRow {
    Reason reason;
    std::string_view word;  ///< "libero-front-row"
    std::string_view text;  ///< one sentence for a person at the table
    Severity severity;
    Life life;
    Counts counts;
    Answer answer;
    Costs costs;
    Lasts lasts;
    Group group;
    Actor actor;
    RuleAlert alert;
    std::array<std::string_view, family_count> reference;  ///< by Family; empty where none applies
};

/// The table of all reasons, each at its own index.
extern const std::array<ReasonRow, reason_count> reason_table;

[[nodiscard]] inline const ReasonRow& describe(Reason reason) noexcept {
    return reason_table[static_cast<std::size_t>(reason)];
}

/// The reason a word names, e.g. "wrong-server".
[[nodiscard]] std::optional<Reason> reason_of(std::string_view word) noexcept;

}  // namespace courthand
