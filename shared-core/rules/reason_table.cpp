// The one table of all reasons, three lines a row: what it says; what it is; whom it alerts and
// where it stands in print, by family of codes.
#include <algorithm>

#include "courthand/rules/reason.h"

namespace courthand {

namespace {

// What the references of the table begin with.
#define FIVB "FIVB Official Volleyball Rules 2025-2028, rule "
#define DOMESTIC "US national federation domestic rules, "
#define NFHS "NFHS Volleyball Rules Book, rule "
#define NCAA "NCAA Women's Volleyball Rules, rule "
// None was seen in print.
constexpr std::string_view memory = "memory";
constexpr std::string_view practice = "common practice, no source";
// The codes of the family have no such rule.
constexpr std::string_view none;

using enum Severity;
using enum Life;
using enum Counts;
using enum Answer;
using enum Costs;
using enum Lasts;
using enum Group;
using enum Actor;

// clang-format off
constexpr std::array<ReasonRow, reason_count> rows{{
    // the libero and his replacements
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::libero_no_completed_rally, "libero-no-completed-rally", "No completed rally lies between two libero replacements of the team.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.2.1", practice, NFHS "10-4-5", NCAA "12.2.1"}},
    {Reason::libero_wrong_returner, "libero-wrong-returner", "Someone other than the replaced player or the other libero came in for the libero.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.2.2", practice, NFHS "10-4", NCAA "12.2"}},
    {Reason::libero_front_row, "libero-front-row", "A libero stands in the front row.",
     critical, condition, as_front_row,   correct,           rally,   in_front_row,   replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.1.1", practice, NFHS "10-4", NCAA "12.1.2"}},
    {Reason::libero_two_on_court, "libero-two-on-court", "Two liberos of the team are on court.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.2.2", practice, NFHS "10-4", NCAA "12.1"}},
    {Reason::libero_not_designated, "libero-not-designated", "A player who is not a libero of this set acts as one.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.1.2", practice, NFHS "10-4", NCAA "12.1.1"}},
    {Reason::libero_second_serving_position, "libero-second-serving-position", "A libero serves in a second position of the serving order of this set.",
     critical, service,   as_replacement, point,             rally,   other_slot,     services,     first_referee,
     RuleAlert::illegal_replacement, {none, practice, NFHS "10-4", NCAA "12.1.2.3"}},
    {Reason::libero_may_not_serve, "libero-may-not-serve", "A libero serves where the rules do not let a libero serve.",
     critical, service,   as_replacement, point,             rally,   serving,        services,     first_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.1.3", none, NFHS "10-4", NCAA "12.1.2.3"}},
    {Reason::libero_late_replacement, "libero-late-replacement", "A libero replacement was made after the whistle for service.",
     medium,   notice,    at_once,        delay_when_again,  nothing, in_place,       replacements, second_referee,
     RuleAlert::none, {FIVB "19.3.2.5", memory, NFHS "9-9", NCAA "12.2.2.1"}},
    {Reason::libero_before_check, "libero-before-check", "A libero came on before the second referee had checked the line-up.",
     high,     act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.3.2.3", practice, NFHS "7-1", NCAA "12.2"}},
    {Reason::libero_before_switch, "libero-before-switch", "A libero replacement was made while the change of courts is due.",
     high,     act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {none, practice, none, none}},
    {Reason::libero_in_substitution, "libero-in-substitution", "A libero takes part in a substitution.",
     critical, act,       as_replacement, delay,             rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {FIVB "15.5.1", memory, NFHS "10-4", NCAA "12.1"}},
    {Reason::libero_unable, "libero-unable", "A libero who has been declared unable to play comes in.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "19.4.1", memory, NFHS "10-4-3", NCAA "12.3"}},
    {Reason::libero_during_replay, "libero-during-replay", "A libero replacement was made before a service that is repeated.",
     high,     act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {none, none, NFHS "8-1-5", none}},
    {Reason::libero_for_disqualified, "libero-for-disqualified", "A libero replaces a player who must leave the court by substitution.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {FIVB "15.8", memory, NFHS "10-4", NCAA "12.3"}},
    {Reason::libero_not_starting, "libero-not-starting", "The first libero of the match to come on is not the one of the first box.",
     critical, act,       as_replacement, delay,             rally,   in_place,       replacements, second_referee,
     RuleAlert::illegal_replacement, {none, DOMESTIC "2011-13, assistant scorer guide", none, none}},
    {Reason::libero_out_of_place, "libero-out-of-place", "The replacement names a player who is not on court, or no libero at all.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       replacements, table,
     RuleAlert::none, {FIVB "19.3.2", practice, NFHS "10-4", NCAA "12.2"}},

    // who is a libero
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::designation_changed, "designation-changed", "A libero on this sheet is not one of the liberos of the match.",
     high,     sheet,     at_contact,     correct,           nothing, on_the_sheet,   sheets,       second_referee,
     RuleAlert::libero_differs, {FIVB "19.1.2", practice, none, none}},
    {Reason::designation_mixed, "designation-mixed", "Two liberos are named although the team chose one for each set.",
     high,     sheet,     at_contact,     correct,           nothing, on_the_sheet,   sheets,       second_referee,
     RuleAlert::libero_differs, {none, practice, none, none}},
    {Reason::libero_box_unconfirmed, "libero-box-unconfirmed", "A libero box is blank and nobody has said that there is no libero for it.",
     high,     condition, at_contact,     ask,               nothing, box_blank,      sheets,       table,
     RuleAlert::libero_box_unconfirmed, {practice, practice, NFHS "7-1", NCAA "12.1.1"}},
    {Reason::libero_limit, "libero-limit", "The number of liberos is not one that the rules allow.",
     high,     sheet,     at_contact,     correct,           nothing, on_the_sheet,   sheets,       second_referee,
     RuleAlert::libero_differs, {FIVB "19.1.1", memory, NFHS "6-4-2", NCAA "12.1.1"}},
    {Reason::redesignation_not_open, "redesignation-not-open", "A libero who can play is left, or the libero may not be replaced in his role.",
     high,     request,   at_once,        refuse,            nothing, until_answered, designations, second_referee,
     RuleAlert::redesignation_fault, {FIVB "19.4.3.1", DOMESTIC "2011-13, assistant scorer guide", NFHS "10-4-3", NCAA "12.3"}},
    {Reason::redesignation_of_replaced_player, "redesignation-of-replaced-player", "The new libero is the player whom the acting libero replaces.",
     high,     request,   at_once,        refuse,            nothing, until_answered, designations, second_referee,
     RuleAlert::redesignation_fault, {FIVB "19.4.2.1", memory, NFHS "10-4-3", NCAA "12.3"}},
    {Reason::redesignation_of_player_on_court, "redesignation-of-player-on-court", "The new libero is on court at this moment.",
     high,     request,   at_once,        refuse,            nothing, until_answered, designations, second_referee,
     RuleAlert::redesignation_fault, {FIVB "19.4.2.1", memory, NFHS "10-4-3", NCAA "12.3"}},
    {Reason::redesignation_of_barred_player, "redesignation-of-barred-player", "The new libero may not take part, or has already been a libero.",
     high,     request,   at_once,        refuse,            nothing, until_answered, designations, second_referee,
     RuleAlert::redesignation_fault, {FIVB "19.4.2.1", memory, NFHS "10-4-3", NCAA "12.3"}},
    {Reason::redesignated_player_returns, "redesignated-player-returns", "A libero for whom another was re-designated takes part again.",
     critical, condition, at_contact,     correct,           rally,   not_allowed,    presence,     second_referee,
     RuleAlert::barred_player, {FIVB "19.4.2.2", practice, NFHS "10-4-3", NCAA "12.3"}},
    {Reason::redesignated_player_other_role, "redesignated-player-other-role", "A re-designated libero plays in another role.",
     critical, act,       at_contact,     correct,           rally,   in_place,       presence,     second_referee,
     RuleAlert::barred_player, {FIVB "19.4.2.2", memory, none, none}},

    // serving order
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::wrong_server, "wrong-server", "The service was hit by a player who is not the next server.",
     critical, service,   at_contact,     point,             rally,   out_of_turn,    services,     first_referee,
     RuleAlert::wrong_server, {FIVB "7.7.1", memory, memory, memory}},
    {Reason::positional_fault, "positional-fault", "A player stood out of position when the service was hit.",
     high,     service,   at_contact,     point,             rally,   this_rally,     positions,    second_referee,
     RuleAlert::none, {FIVB "7.5", memory, memory, memory}},
    {Reason::positional_fault_of_servers, "positional-fault-of-servers", "The serving team may stand where it likes when the service is hit.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       positions,    first_referee,
     RuleAlert::none, {FIVB "7.4", memory, none, none}},

    // substitutions
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::sub_limit, "sub-limit", "The team has used all its substitutions of the set.",
     high,     act,       at_contact,     improper,          rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {FIVB "15.1", DOMESTIC "2013-15, rule 15.6", NFHS "10-3-2", NCAA "11.3"}},
    {Reason::sub_wrong_pair, "sub-wrong-pair", "These two players may not be substituted for each other.",
     high,     act,       at_contact,     delay_or_improper, rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {FIVB "15.6", none, NFHS "10-3", NCAA "11.3"}},
    {Reason::sub_reentry_used, "sub-reentry-used", "The player has already left and returned, or entered, as often as allowed.",
     high,     act,       at_contact,     delay_or_improper, rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {FIVB "15.6.1", none, NFHS "10-3", NCAA "11.3"}},
    {Reason::sub_wrong_position, "sub-wrong-position", "The player belongs to another place in the serving order in this set.",
     high,     act,       at_contact,     delay_or_improper, rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {none, DOMESTIC "2013-15, rule 15.6", NFHS "10-3-3", NCAA "11.3"}},
    {Reason::sub_not_on_roster, "sub-not-on-roster", "The player is not on the team list.",
     critical, act,       at_contact,     delay_or_improper, rally,   in_place,       requests,     second_referee,
     RuleAlert::illegal_substitution, {FIVB "4.1.3", memory, NFHS "7-1", NCAA "10.1"}},
    {Reason::sub_second_request, "sub-second-request", "A second request for substitution in the same interruption.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "15.2.2", memory, NFHS "10-2", NCAA "11.3"}},
    {Reason::sub_no_completed_rally, "sub-no-completed-rally", "A request for substitution before a rally that is replayed.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "15.2.3", memory, none, none}},
    {Reason::sub_after_rejection, "sub-after-rejection", "A request in the interruption in which one was rejected with a delay sanction.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "15.2.4", memory, none, none}},
    {Reason::sub_player_on_court, "sub-player-on-court", "The player who should come in is already on court.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       requests,     table,
     RuleAlert::illegal_substitution, {FIVB "15.5", memory, NFHS "10-3", NCAA "11.3"}},
    {Reason::sub_player_not_on_court, "sub-player-not-on-court", "The player who should go off is not on court.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       requests,     table,
     RuleAlert::illegal_substitution, {FIVB "15.5", memory, NFHS "10-3", NCAA "11.3"}},
    {Reason::sub_before_set, "sub-before-set", "Substitution is not open yet: the line-up is not in.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "7.3.4", memory, NFHS "10-3", NCAA "10.1.1.7"}},
    {Reason::sub_required, "sub-required", "A player who must leave can be substituted; nothing else is open.",
     high,     condition, at_contact,     correct,           nothing, place_empty,    presence,     second_referee,
     RuleAlert::none, {FIVB "15.8", memory, NFHS "6-4-5", NCAA "11.3"}},
    {Reason::exceptional_not_needed, "exceptional-not-needed", "A regular substitution is possible: an exceptional one is not open.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       exceptions,   first_referee,
     RuleAlert::none, {FIVB "15.7", memory, NFHS "10-3", NCAA "11.3.6"}},
    {Reason::exceptional_not_allowed, "exceptional-not-allowed", "This player may not enter by exceptional substitution.",
     high,     act,       at_contact,     delay,             rally,   in_place,       exceptions,   first_referee,
     RuleAlert::illegal_substitution, {FIVB "15.7", memory, NFHS "10-3", NCAA "11.3.6"}},

    // people
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::player_barred, "player-barred", "A player who may not take part is on court or named.",
     critical, condition, at_contact,     correct,           rally,   not_allowed,    presence,     second_referee,
     RuleAlert::barred_player, {FIVB "21.3", memory, memory, memory}},
    {Reason::player_unregistered, "player-unregistered", "A player who is not on the team list is on court.",
     critical, condition, at_contact,     correct,           sets,    not_listed,     presence,     second_referee,
     RuleAlert::lineup_wrong, {FIVB "7.3.5.4", memory, NFHS "7-1", NCAA "10.1"}},
    {Reason::captain_missing, "captain-missing", "The game captain is off court and no other is named.",
     high,     condition, at_contact,     ask,               nothing, nobody_leads,   captains,     second_referee,
     RuleAlert::captain_missing, {FIVB "5.1.2", practice, memory, NCAA "10.1.1.4"}},
    {Reason::captain_is_libero, "captain-is-libero", "A libero may not be captain.",
     high,     sheet,     at_contact,     correct,           nothing, libero_leads,   captains,     second_referee,
     RuleAlert::none, {none, practice, none, none}},
    {Reason::captain_not_on_court, "captain-not-on-court", "The player named as game captain is not on court.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       captains,     table,
     RuleAlert::none, {FIVB "5.1.2", practice, memory, NCAA "10.1.1.4"}},
    {Reason::roster_too_long, "roster-too-long", "The team list has more players than the rules allow; an event may allow more.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       sheets,       table,
     RuleAlert::none, {FIVB "4.1.1", memory, none, none}},
    {Reason::team_short, "team-short", "Fewer than six players are on court.",
     critical, condition, at_contact,     incomplete,        nothing, place_empty,    presence,     second_referee,
     RuleAlert::team_short, {FIVB "7.3.1", memory, NFHS "6-4-3", NCAA "10.1"}},

    // line-up sheets
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::lineup_missing, "lineup-missing", "The line-up sheet of the team is not in.",
     high,     condition, at_contact,     delay,             nothing, sheet_missing,  sheets,       second_referee,
     RuleAlert::lineup_missing, {FIVB "7.3.2", DOMESTIC "published scorer examination answers, 2025", NFHS "7-1", NCAA "10.1.1.1"}},
    {Reason::lineup_duplicate, "lineup-duplicate", "A number stands twice on the line-up sheet.",
     high,     sheet,     at_contact,     correct,           rally,   six_twice,      sheets,       second_referee,
     RuleAlert::lineup_wrong, {FIVB "7.3.2", memory, NFHS "7-1-6", NCAA "10.1"}},
    {Reason::lineup_not_on_roster, "lineup-not-on-roster", "A number on the line-up sheet is not on the team list.",
     high,     sheet,     at_contact,     correct,           rally,   six_or_box,     sheets,       second_referee,
     RuleAlert::lineup_wrong, {FIVB "7.3.5.4", memory, NFHS "7-1-5", NCAA "10.1"}},
    {Reason::lineup_libero_as_starter, "lineup-libero-as-starter", "A libero of this set is among the six of the line-up sheet.",
     high,     sheet,     at_contact,     correct,           nothing, on_the_sheet,   sheets,       second_referee,
     RuleAlert::lineup_wrong, {FIVB "19.1.2", DOMESTIC "2019-21, interpretation of 20 March 2020", NFHS "7-1", NCAA "10.1.1.3"}},
    {Reason::lineup_changed, "lineup-changed", "A line-up sheet was changed after it was checked, or after the set began.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       sheets,       table,
     RuleAlert::none, {FIVB "7.3.4", memory, NFHS "7-1", NCAA "10.1.1.7"}},

    // interruptions and sanctions
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::improper_request, "improper-request", "A request at the wrong moment or without the right to make it.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "15.11", memory, NFHS "9-9", memory}},
    {Reason::timeout_limit, "timeout-limit", "The team has used all its time-outs of the set.",
     medium,   request,   at_once,        improper,          nothing, until_answered, requests,     second_referee,
     RuleAlert::none, {FIVB "15.1", "officiating magazine comparison of codes, 2017", memory, memory}},
    {Reason::delay_scale, "delay-scale", "The delay sanction is not the next step of the scale.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       sanctions,    first_referee,
     RuleAlert::none, {FIVB "16.2", memory, NFHS "9-9", memory}},
    {Reason::misconduct_scale, "misconduct-scale", "The sanction is not a step up on the scale for this person or team.",
     medium,   notice,    at_once,        ask,               nothing, in_place,       sanctions,    first_referee,
     RuleAlert::none, {FIVB "21.3", memory, memory, memory}},
    {Reason::recovery_not_open, "recovery-not-open", "Recovery time is not open: a substitution is possible, or it was used.",
     medium,   request,   at_once,        refuse,            nothing, until_answered, exceptions,   first_referee,
     RuleAlert::none, {FIVB "17.1.2", memory, NFHS "11-4", memory}},

    // course of the match
    // severity  life       counts          answer             costs    lasts           group         who acts
    {Reason::switch_due, "switch-due", "The change of courts in the deciding set has been missed.",
     high,     condition, at_contact,     correct,           nothing, not_switched,   course,       second_referee,
     RuleAlert::switch_missed, {FIVB "18.2.2", practice, NFHS "5-9", memory}},
    {Reason::switch_not_due, "switch-not-due", "A change of courts is not due now.",
     low,      notice,    at_once,        ask,               nothing, in_place,       course,       table,
     RuleAlert::none, {FIVB "18.2", memory, NFHS "5-9", memory}},
    {Reason::score_impossible, "score-impossible", "No course of play leads to this score.",
     high,     notice,    at_once,        correct,           nothing, in_place,       course,       table,
     RuleAlert::score_impossible, {FIVB "6.2", memory, memory, memory}},
    {Reason::out_of_sequence, "out-of-sequence", "This cannot follow what stands in the record.",
     low,      notice,    at_once,        ask,               nothing, in_place,       course,       table,
     RuleAlert::none, {practice, practice, practice, practice}},
}};
// clang-format on

#undef FIVB
#undef DOMESTIC
#undef NFHS
#undef NCAA

/// A reason is its own index, and none lacks its row.
constexpr bool in_order() {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (static_cast<std::size_t>(rows[i].reason) != i || rows[i].word.empty()) return false;
    return true;
}
static_assert(in_order());

/// A service was hit with a fault of service: it needs no waiting, and it costs the rally.
constexpr bool services_cost_the_rally() {
    for (const ReasonRow& row : rows)
        if (row.life == service && (row.answer != point || row.costs == nothing)) return false;
    return true;
}
static_assert(services_cost_the_rally());

/// What is asked for or said counts from the moment it is.
constexpr bool words_count_at_once() {
    for (const ReasonRow& row : rows)
        if ((row.life == request || row.life == notice) != (row.counts == at_once)) return false;
    return true;
}
static_assert(words_count_at_once());

}  // namespace

constinit const std::array<ReasonRow, reason_count> reason_table = rows;

std::optional<Reason> reason_of(std::string_view word) noexcept {
    const auto found = std::find_if(rows.begin(), rows.end(),
                                    [&](const ReasonRow& row) { return row.word == word; });
    if (found == rows.end()) return std::nullopt;
    return found->reason;
}

}  // namespace courthand
