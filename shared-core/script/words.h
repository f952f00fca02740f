// The words a script uses for closed choices, in one table for each, read and written alike. Those
// inside a fact stand in match/choices.h.
#pragma once

#include <array>
#include <string_view>

#include "courthand/match/fact.h"
#include "courthand/rules/verdict.h"
#include "courthand/script/script.h"

namespace courthand::script {

template <class T>
struct Word {
    std::string_view word;
    T value;
};

/// The verbs that are no facts.
inline constexpr std::array<std::string_view, 6> other_verbs{"profile", "play",  "strike",
                                                             "insert",  "amend", "expect"};

inline constexpr std::array<Word<Ruling::Decision>, 2> decision_words{{
    {"accept", Ruling::Decision::accept},
    {"overrule", Ruling::Decision::overrule},
}};

/// After an accepted ruling: the record cannot show since when.
inline constexpr std::string_view moment_unknown_word = "moment-unknown";

inline constexpr std::array<Word<Action>, 11> action_words{{
    {"none", Action::none},
    {"point-and-service", Action::point_and_service},
    {"undo", Action::undo},
    {"refuse", Action::refuse},
    {"correct", Action::correct},
    {"inform", Action::inform},
    {"delay-warning", Action::delay_warning},
    {"delay-penalty", Action::delay_penalty},
    {"record-only", Action::record_only},
    {"incomplete", Action::incomplete},
    {"ask", Action::ask},
}};

/// The first word after `expect`. `libero` stands for two kinds.
inline constexpr std::array<Word<Expectation::Kind>, 25> expectation_words{{
    {"legal", Expectation::Kind::legal},       {"none", Expectation::Kind::none},
    {"armed", Expectation::Kind::armed},       {"open", Expectation::Kind::open},
    {"raised", Expectation::Kind::raised},     {"score", Expectation::Kind::score},
    {"serving", Expectation::Kind::serving},   {"server", Expectation::Kind::server},
    {"court", Expectation::Kind::court},       {"captain", Expectation::Kind::captain},
    {"libero", Expectation::Kind::libero_on},  {"sets", Expectation::Kind::sets},
    {"winner", Expectation::Kind::winner},     {"subs", Expectation::Kind::subs},
    {"improper", Expectation::Kind::improper}, {"delays", Expectation::Kind::delays},
    {"timeouts", Expectation::Kind::timeouts}, {"left", Expectation::Kind::left},
    {"liberos", Expectation::Kind::liberos},   {"cleared", Expectation::Kind::cleared},
    {"appeared", Expectation::Kind::appeared}, {"vanished", Expectation::Kind::vanished},
    {"changed", Expectation::Kind::changed},   {"next", Expectation::Kind::next},
    {"waiting", Expectation::Kind::waiting},
}};

/// What must happen before the next service.
inline constexpr std::array<Word<Prompt::Kind>, 15> prompt_words{{
    {"roster-missing", Prompt::Kind::roster_missing},
    {"toss-missing", Prompt::Kind::toss_missing},
    {"set-to-start", Prompt::Kind::set_to_start},
    {"lineup-missing", Prompt::Kind::lineup_missing},
    {"libero-box-open", Prompt::Kind::libero_box_open},
    {"check-missing", Prompt::Kind::check_missing},
    {"libero-must-leave", Prompt::Kind::libero_must_leave},
    {"place-empty", Prompt::Kind::place_empty},
    {"barred-must-leave", Prompt::Kind::barred_must_leave},
    {"captain-to-name", Prompt::Kind::captain_to_name},
    {"courts-to-switch", Prompt::Kind::courts_to_switch},
    {"serve", Prompt::Kind::serve},
    {"decide-rally", Prompt::Kind::decide_rally},
    {"match-finished", Prompt::Kind::match_finished},
    {"match-interrupted", Prompt::Kind::match_interrupted},
}};

/// The word of a value; empty when the table has none.
template <class Table, class T>
[[nodiscard]] constexpr std::string_view word_of(const Table& table, T value) noexcept {
    for (const auto& row : table)
        if (row.value == value) return row.word;
    return {};
}

}  // namespace courthand::script
