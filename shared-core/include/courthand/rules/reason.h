// Why the rules object: one word for each idea of the rules. The words are stable: scripts, records
// and alerts name them. Text, references and severity stand in one table (`describe`).
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

/// The families of published codes that a reason may cite.
enum class Family : std::uint8_t {
    international,
    us_domestic,
    us_high_school,
    us_college_women,
};
inline constexpr std::size_t family_count = 4;

struct ReasonRow {
    Reason reason{};
    std::string_view word;  ///< "libero-front-row"
    std::string_view text;  ///< one sentence for a person at the table
    Severity severity = Severity::critical;
    std::array<std::string_view, family_count> reference;  ///< by Family; empty where none applies
};

/// The row of a reason in the table of all reasons.
[[nodiscard]] const ReasonRow& describe(Reason reason) noexcept;

/// The reason a word names, e.g. "wrong-server".
[[nodiscard]] std::optional<Reason> reason_of(std::string_view word) noexcept;

}  // namespace courthand
