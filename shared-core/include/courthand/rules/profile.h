// A rule profile: the values in which published codes differ. Read from a TOML file in which each
// value names its source (`read_profile`), compiled into a small struct that the judge reads.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/match/format.h"
#include "courthand/rules/reason.h"

namespace courthand {

enum class DesignationScope : std::uint8_t {
    match,         ///< the same liberos all match
    set,           ///< named anew for each set
    match_or_set,  ///< two for the match, or one for each set
};

enum class SubstitutionScheme : std::uint8_t {
    pair,      ///< a starter leaves once and returns once, only for his own substitute
    position,  ///< any number of entries within the limit, tied to one place in the order
};

/// From which moment an illegal replacement counts.
enum class Opens : std::uint8_t { service_contact, whistle, at_once };

/// Which points of the team at fault are taken back when a fault is found late.
enum class Cancellation : std::uint8_t { since_fault, present_term_of_service };

/// For which faults a rally that the opponent has won is the point that the fault gives it. For the
/// others the opponent keeps that rally and is given a point besides.
enum class LostRally : std::uint8_t { of_a_service, of_any_fault };

enum class Scope : std::uint8_t { set, match };

/// Whether a team may name a new libero for one who was disqualified.
enum class DisqualifiedLibero : std::uint8_t {
    no,
    sole,  ///< only for the one libero of a team that has no other
    yes,
};

/// When a new libero may come in for one whom the coach declares unable while he is on court.
enum class DeclaredOnCourt : std::uint8_t {
    at_once,
    after_rally,  ///< the regular player returns first, and a rally is completed
};

/// What is left of a finished set to a team that played in it with somebody not on its list.
enum class UnregisteredSet : std::uint8_t { keeps_earlier_points, keeps_none };

/// What the first late replacement of a team brings.
enum class LateReplacement : std::uint8_t { inform_then_delay, delay_at_once };

/// The parameters the judge reads. Counts are per team and set unless the name says otherwise.
struct Rules {
    Family family = Family::international;
    MatchFormat format{};
    // rosters and line-ups
    std::uint8_t most_listed = 12;               ///< players on the team list
    std::uint8_t most_by_choice = 12;            ///< to so many an event may raise it
    std::uint8_t two_liberos_above = 0;          ///< a longer list must name two liberos; 0: never
    std::uint8_t six_must_play = 1;              ///< 0: a team may play on with an empty place
    std::uint8_t six_must_start = 1;             ///< the match does not begin with an empty place
    std::uint8_t sheet_each_set = 1;             ///< 0: a line-up may be given by word of mouth
    std::uint16_t first_lineup_due_seconds = 0;  ///< before the end of the warm-up; 0: not fixed
    std::uint16_t next_lineup_due_seconds = 0;   ///< before the end of the interval; 0: not fixed
    std::uint8_t switch_at_long = 13;            ///< court switch of a deciding set to 25
    std::uint8_t service_seconds = 8;            ///< from the whistle
    // substitutions
    std::uint8_t substitutions = 6;
    SubstitutionScheme scheme = SubstitutionScheme::pair;
    std::uint8_t exceptional_for_sanction = 1;  ///< also for expulsion and disqualification
    std::uint8_t libero_may_enter_exceptionally = 0;
    std::uint8_t rejection_bars_requests = 1;
    std::uint8_t illegal_request_is_delay = 1;  ///< 0: it is an improper request
    std::uint8_t sub_before_first_serve = 1;
    std::uint8_t requests_after_replay = 0;          ///< 1: a replay opens a new interruption
    std::uint8_t second_request_after_time_out = 0;  ///< 1: a time-out opens another one
    std::uint8_t first_improper_is_free = 1;         ///< 0: it is a delay at once
    // interruptions
    std::uint8_t time_outs = 2;
    std::uint16_t time_out_seconds = 30;
    std::uint8_t time_out_may_end_early = 0;
    std::uint8_t technical_time_outs = 0;  ///< per set, at 8 and 16 points, none in the decider
    std::uint16_t interval_seconds = 180;
    std::uint16_t longest_interval_seconds = 180;
    std::uint16_t recovery_seconds = 180;
    // liberos
    std::uint8_t liberos_per_set = 2;
    DesignationScope designation = DesignationScope::match;
    std::uint8_t libero_serving_positions = 0;
    std::uint8_t serve_exception = 0;  ///< going to serve needs no completed rally
    std::uint8_t libero_team_captain = 1;
    std::uint8_t libero_game_captain = 1;
    std::uint8_t replay_completes_rally = 0;
    std::uint8_t replacement_during_replay = 1;
    std::uint8_t libero_for_disqualified = 1;
    std::uint8_t recheck_after_switch = 0;
    std::uint8_t replacement_while_switch_due = 1;
    std::uint8_t box_needs_confirmation = 1;
    std::uint8_t starting_libero = 0;  ///< the libero of the first box comes on first
    Opens illegal_replacement_opens = Opens::service_contact;
    Opens front_row_opens = Opens::service_contact;
    LateReplacement late_replacement = LateReplacement::inform_then_delay;
    // re-designation
    std::uint8_t redesignate_beside_active_libero = 0;
    DisqualifiedLibero redesignate_disqualified = DisqualifiedLibero::yes;
    std::uint8_t declaration_is_enough = 1;  ///< 0: injury or illness only
    DeclaredOnCourt declared_on_court = DeclaredOnCourt::at_once;
    Scope replaced_libero_out = Scope::match;
    std::uint8_t captain_may_be_redesignated = 1;
    // sanctions and faults
    Scope delay_scope = Scope::match;
    Scope misconduct_scope = Scope::match;     ///< how long a personal sanction counts on the scale
    std::uint8_t delay_brings_point_from = 2;  ///< which delay of the scope is a penalty
    std::uint8_t serving_team_in_order = 0;    ///< 0: only receivers must stand in order
    Cancellation cancellation = Cancellation::since_fault;
    LostRally lost_rally_is_the_point = LostRally::of_a_service;
    UnregisteredSet unregistered_finished_set = UnregisteredSet::keeps_earlier_points;
    std::uint8_t disqualification_brings_point = 0;
    /// Officials may take back their own error about the order only until the opponent serves.
    std::uint8_t officials_error_until_opponent_serves = 0;
    friend constexpr bool operator==(const Rules&, const Rules&) = default;
};

/// How well a value is known.
enum class Evidence : std::uint8_t {
    published,
    practice,  ///< common practice, no source
    open,      ///< sources differ, or the text of this edition was not seen
    memory,
};

/// Where one value of a profile comes from.
struct ProfileValue {
    std::string key;    ///< "libero.serving-positions"
    std::string value;  ///< as written in the file
    std::string source;
    Evidence evidence = Evidence::published;
};

struct Profile {
    std::string id;  ///< "international-2025"
    std::string title;
    Rules rules{};
    std::vector<ProfileValue> values;  ///< every parameter, in the order of the schema
    std::uint64_t hash = 0;            ///< of id and all values; kept with every record
};

/// What is wrong in a profile file, where, and how to put it right.
struct ProfileError {
    std::uint32_t line = 0;  ///< from 1; 0 when no line is to blame
    std::string message;
    std::string cure;
};

/// Reads a profile. `base` gives the text of the profile a house profile inherits from, by id, or
/// an empty string when there is none.
using ProfileText = std::string (*)(std::string_view id);
[[nodiscard]] std::variant<Profile, std::vector<ProfileError>> read_profile(std::string_view text,
                                                                            ProfileText base);

/// Ids of the profiles that are built in, oldest first in each family.
[[nodiscard]] std::vector<std::string> profile_ids();
/// Text of a built-in profile file; empty for an unknown id.
[[nodiscard]] std::string profile_text(std::string_view id);
/// A built-in profile, or null. The answer lives as long as the program.
[[nodiscard]] const Profile* find_profile(std::string_view id);

}  // namespace courthand
