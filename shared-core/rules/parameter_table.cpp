// The one table of parameters. A verdict that a value decides about names it when the value was not
// seen in print; `tests/cases/parameter_test.cpp` finds a reason that is missing here by playing
// every case with every other value, and a parameter on which nobody acts.
#include "rules/parameter_table.h"

#include <fmt/format.h>

#include <initializer_list>

namespace courthand::rules {
namespace {

using R = Reason;
using Set = void (*)(Rules&, int);

template <auto Member>
void put(Rules& rules, int value) {
    using Field = std::remove_reference_t<decltype(rules.*Member)>;
    rules.*Member = static_cast<Field>(value);
}
template <auto Member>
void put_format(Rules& rules, int value) {
    rules.format.*Member = static_cast<std::uint8_t>(value);
}

constexpr Parameter number(std::string_view key, int least, int most, Set set) {
    return {key, Parameter::Kind::number, least, most, {}, set, ActedBy::judge, {}, {}};
}
constexpr Parameter truth(std::string_view key, Set set) {
    return {key, Parameter::Kind::truth, 0, 1, {}, set, ActedBy::judge, {}, {}};
}
constexpr Parameter word(std::string_view key, std::array<std::string_view, 4> words, Set set) {
    return {key, Parameter::Kind::word, 0, 0, words, set, ActedBy::judge, {}, {}};
}

template <class List, class Word>
constexpr List list_of(std::initializer_list<Word> words) {
    List list;
    for (const Word w : words) list.items[list.count++] = w;
    return list;
}

constexpr Parameter acted_on(Parameter p, ActedBy by, std::initializer_list<Reason> reasons,
                             std::initializer_list<Action> actions) {
    p.acted_by = by;
    p.reasons = list_of<ReasonList>(reasons);
    p.actions = list_of<ActionList>(actions);
    return p;
}
constexpr Parameter by_judge(Parameter p, std::initializer_list<Reason> reasons = {},
                             std::initializer_list<Action> actions = {}) {
    return acted_on(p, ActedBy::judge, reasons, actions);
}
constexpr Parameter by_history(Parameter p) {
    return acted_on(p, ActedBy::history, {}, {});
}
constexpr Parameter by_plan(Parameter p, std::initializer_list<Reason> reasons = {}) {
    return acted_on(p, ActedBy::plan, reasons, {});
}
constexpr Parameter by_table(Parameter p) {
    return acted_on(p, ActedBy::table, {}, {});
}
constexpr Parameter by_desk(Parameter p) {
    return acted_on(p, ActedBy::desk, {}, {});
}
constexpr Parameter by_event(Parameter p) {
    return acted_on(p, ActedBy::event, {}, {});
}
constexpr Parameter by_referee(Parameter p) {
    return acted_on(p, ActedBy::referee, {}, {});
}

// clang-format off
constexpr std::array table{
    by_table(word("family", {"international", "us-domestic", "us-high-school", "us-college-women"}, put<&Rules::family>)),
    by_plan(number("match.sets", 1, 5, put_format<&MatchFormat::sets>)),
    by_plan(truth("match.all-sets-played", put_format<&MatchFormat::all_sets_played>)),
    by_plan(number("match.points", 1, 99, put_format<&MatchFormat::points>),
        {R::score_impossible}),
    by_plan(number("match.deciding-points", 1, 99, put_format<&MatchFormat::deciding_points>),
        {R::score_impossible}),
    by_plan(number("match.lead", 1, 9, put_format<&MatchFormat::lead>),
        {R::score_impossible}),
    by_plan(number("match.cap", 0, 99, put_format<&MatchFormat::cap>),
        {R::score_impossible}),
    by_plan(number("match.deciding-cap", 0, 99, put_format<&MatchFormat::deciding_cap>),
        {R::score_impossible}),
    by_plan(number("match.start-score", 0, 24, put_format<&MatchFormat::start_score>),
        {R::score_impossible}),
    by_plan(number("match.switch-at", 1, 98, put_format<&MatchFormat::switch_at>),
        {R::switch_due, R::switch_not_due}),
    by_plan(number("match.switch-at-long", 1, 98, put<&Rules::switch_at_long>),
        {R::switch_due, R::switch_not_due}),
    by_referee(number("match.service-seconds", 0, 60, put<&Rules::service_seconds>)),
    by_judge(number("roster.most-listed", 6, 24, put<&Rules::most_listed>),
        {R::roster_too_long}),
    by_event(number("roster.most-by-choice-of-event", 6, 24, put<&Rules::most_by_choice>)),
    by_judge(number("roster.two-liberos-above", 0, 24, put<&Rules::two_liberos_above>),
        {R::libero_limit}),
    by_judge(truth("team.six-must-play", put<&Rules::six_must_play>),
        {R::sub_required, R::team_short}),
    by_judge(truth("team.six-must-start", put<&Rules::six_must_start>),
        {R::team_short}),
    by_referee(truth("line-up.sheet-each-set", put<&Rules::sheet_each_set>)),
    by_desk(number("line-up.first-due-seconds", 0, 3600, put<&Rules::first_lineup_due_seconds>)),
    by_desk(number("line-up.next-due-seconds", 0, 600, put<&Rules::next_lineup_due_seconds>)),
    by_judge(number("substitution.limit", 0, 99, put<&Rules::substitutions>),
        {R::sub_limit, R::exceptional_not_needed}),
    by_judge(word("substitution.scheme", {"pair", "position"}, put<&Rules::scheme>),
        {R::sub_wrong_pair, R::sub_reentry_used, R::sub_wrong_position, R::exceptional_not_needed}),
    by_judge(truth("substitution.exceptional-after-sanction", put<&Rules::exceptional_for_sanction>),
        {R::exceptional_not_allowed}),
    by_judge(truth("substitution.exceptional-by-libero", put<&Rules::libero_may_enter_exceptionally>),
        {R::libero_in_substitution, R::recovery_not_open}),
    by_judge(truth("substitution.rejection-bars-requests", put<&Rules::rejection_bars_requests>),
        {R::sub_after_rejection}),
    by_judge(truth("substitution.illegal-request-is-delay", put<&Rules::illegal_request_is_delay>),
        {R::sub_wrong_pair, R::sub_reentry_used, R::sub_wrong_position, R::sub_not_on_roster}),
    by_judge(truth("substitution.before-first-serve", put<&Rules::sub_before_first_serve>),
        {R::sub_no_completed_rally, R::sub_after_rejection, R::sub_before_set}),
    by_judge(truth("substitution.after-replay", put<&Rules::requests_after_replay>),
        {R::sub_no_completed_rally, R::sub_after_rejection}),
    by_judge(truth("substitution.second-request-after-time-out", put<&Rules::second_request_after_time_out>),
        {R::sub_second_request}),
    by_judge(truth("improper-request.first-is-free", put<&Rules::first_improper_is_free>),
        {R::sub_limit, R::sub_second_request, R::sub_no_completed_rally, R::sub_after_rejection,
         R::sub_before_set, R::improper_request, R::timeout_limit}),
    by_judge(number("time-out.limit", 0, 9, put<&Rules::time_outs>),
        {R::sub_after_rejection, R::timeout_limit}),
    by_table(number("time-out.seconds", 10, 600, put<&Rules::time_out_seconds>)),
    by_referee(truth("time-out.may-end-early", put<&Rules::time_out_may_end_early>)),
    by_referee(number("time-out.technical", 0, 4, put<&Rules::technical_time_outs>)),
    by_table(number("interval.seconds", 10, 3600, put<&Rules::interval_seconds>)),
    by_event(number("interval.longest-seconds", 10, 3600, put<&Rules::longest_interval_seconds>)),
    by_judge(number("recovery.seconds", 0, 3600, put<&Rules::recovery_seconds>),
        {R::recovery_not_open}),
    by_judge(number("libero.per-set", 0, 2, put<&Rules::liberos_per_set>),
        {R::libero_limit}),
    by_judge(word("libero.designation", {"match", "set", "match-or-set"}, put<&Rules::designation>),
        {R::libero_not_designated, R::designation_changed, R::designation_mixed,
         R::libero_box_unconfirmed, R::redesignation_of_barred_player,
         R::redesignated_player_returns, R::lineup_libero_as_starter}),
    by_judge(number("libero.serving-positions", 0, 1, put<&Rules::libero_serving_positions>),
        {R::libero_no_completed_rally, R::libero_second_serving_position, R::libero_may_not_serve}),
    by_judge(truth("libero.serve-exception", put<&Rules::serve_exception>),
        {R::libero_no_completed_rally, R::libero_out_of_place}),
    by_judge(truth("libero.team-captain", put<&Rules::libero_team_captain>),
        {R::captain_is_libero}),
    by_judge(truth("libero.game-captain", put<&Rules::libero_game_captain>),
        {R::captain_missing, R::captain_is_libero}),
    by_judge(truth("libero.replay-completes-rally", put<&Rules::replay_completes_rally>),
        {R::libero_no_completed_rally}),
    by_judge(truth("libero.replacement-during-replay", put<&Rules::replacement_during_replay>),
        {R::libero_during_replay}),
    by_judge(truth("libero.for-disqualified", put<&Rules::libero_for_disqualified>),
        {R::libero_for_disqualified}),
    by_judge(truth("libero.recheck-after-switch", put<&Rules::recheck_after_switch>),
        {R::libero_before_check}),
    by_judge(truth("libero.replacement-while-switch-due", put<&Rules::replacement_while_switch_due>),
        {R::libero_before_switch}),
    by_judge(truth("libero.box-needs-confirmation", put<&Rules::box_needs_confirmation>),
        {R::libero_box_unconfirmed}),
    by_judge(truth("libero.starting-libero", put<&Rules::starting_libero>),
        {R::libero_not_starting}),
    by_judge(word("libero.illegal-replacement-opens", {"service-contact", "whistle", "at-once"}, put<&Rules::illegal_replacement_opens>),
        {R::libero_no_completed_rally, R::libero_wrong_returner, R::libero_front_row,
         R::libero_two_on_court, R::libero_not_designated, R::libero_before_check,
         R::libero_before_switch, R::libero_in_substitution, R::libero_unable,
         R::libero_during_replay, R::libero_for_disqualified, R::libero_not_starting}),
    by_judge(word("libero.front-row-opens", {"service-contact", "whistle", "at-once"}, put<&Rules::front_row_opens>),
        {R::libero_front_row}),
    by_judge(word("libero.late-replacement", {"inform-then-delay", "delay-at-once"}, put<&Rules::late_replacement>),
        {R::libero_late_replacement}),
    by_judge(truth("redesignation.beside-active-libero", put<&Rules::redesignate_beside_active_libero>),
        {R::redesignation_not_open}),
    by_judge(word("redesignation.of-disqualified", {"no", "sole-libero", "yes"}, put<&Rules::redesignate_disqualified>),
        {R::redesignation_not_open}),
    by_judge(truth("redesignation.declaration-is-enough", put<&Rules::declaration_is_enough>),
        {R::libero_unable, R::redesignation_not_open}),
    by_judge(word("redesignation.declared-on-court", {"at-once", "after-rally"}, put<&Rules::declared_on_court>)),
    by_judge(word("redesignation.replaced-libero-out", {"set", "match"}, put<&Rules::replaced_libero_out>),
        {R::redesignation_of_barred_player, R::redesignated_player_returns}),
    by_judge(truth("redesignation.captain", put<&Rules::captain_may_be_redesignated>),
        {R::captain_is_libero}),
    by_judge(word("delay.scope", {"set", "match"}, put<&Rules::delay_scope>),
        {R::delay_scale}, {Action::delay_warning, Action::delay_penalty}),
    by_judge(word("misconduct.scope", {"set", "match"}, put<&Rules::misconduct_scope>),
        {R::misconduct_scale}),
    by_judge(number("delay.point-from", 1, 9, put<&Rules::delay_brings_point_from>),
        {R::delay_scale}, {Action::delay_warning, Action::delay_penalty}),
    by_judge(truth("fault.serving-team-in-order", put<&Rules::serving_team_in_order>),
        {R::positional_fault, R::positional_fault_of_servers}),
    by_judge(word("fault.cancels", {"since-fault", "present-term-of-service"}, put<&Rules::cancellation>),
        {}, {Action::point_and_service}),
    by_judge(word("fault.lost-rally-is-the-point", {"of-a-service", "of-any-fault"}, put<&Rules::lost_rally_is_the_point>),
        {}, {Action::point_and_service}),
    by_judge(word("fault.unregistered-finished-set", {"keeps-earlier-points", "keeps-none"}, put<&Rules::unregistered_finished_set>),
        {R::player_unregistered}),
    by_history(word("fault.officials-error-until", {"any", "opponents-next-service"}, put<&Rules::officials_error_until_opponent_serves>)),
    by_judge(truth("misconduct.disqualification-brings-point", put<&Rules::disqualification_brings_point>)),
};
// clang-format on

}  // namespace

std::span<const Parameter> parameter_table() noexcept {
    return table;
}

const Parameter* parameter(std::string_view key) noexcept {
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const Parameter& p) { return p.key == key; });
    return found == table.end() ? nullptr : &*found;
}

std::string allowed(const Parameter& p) {
    switch (p.kind) {
        case Parameter::Kind::number:
            return fmt::format("a whole number from {} to {}", p.least, p.most);
        case Parameter::Kind::truth:
            return "true or false";
        case Parameter::Kind::word:
            break;
    }
    std::string words;
    for (const std::string_view w : p.words) {
        if (w.empty()) continue;
        if (!words.empty()) words += ", ";
        words += fmt::format("\"{}\"", w);
    }
    return "one of " + words;
}

}  // namespace courthand::rules
