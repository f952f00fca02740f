// The limits of a task one by one, so that they can be let go: which of them clash, what each
// costs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "courthand/plan/checker.h"

namespace courthand::plan {

/// What a person may let go. That a court has one match at a time, a team is in one place and
/// nothing begins before what it waits for is over, nobody can let go.
struct Rule {
    enum class Kind : std::uint8_t {
        hours,          ///< of the courts
        rest,           ///< of a division
        in_a_row,       ///< of a division
        a_day,          ///< of a division
        latest_finish,  ///< of a division
        not_before,     ///< of the matches of a division
        latest_end,     ///< of the matches of a division
        features,       ///< that matches of a division need
        kept,           ///< courts kept for others than a division
        persons,        ///< crews, officials and coaches are at one match at a time
        pinned,         ///< published matches stay where they are
    };
    Kind kind = Kind::hours;
    std::optional<GroupIndex> group{};
    friend auto operator<=>(const Rule&, const Rule&) = default;
};

/// Those that say anything in this task.
[[nodiscard]] std::vector<Rule> rules_of(const PlanTask& task);

/// The task without this rule. Without hours every court is open for each whole day and its night;
/// what has begun stays pinned.
[[nodiscard]] PlanTask without(const PlanTask& task, const Rule& rule);

/// The task with a looser rule: by so many minutes, or matches; nothing for a rule that holds or
/// does not.
[[nodiscard]] std::optional<PlanTask> loosened(const PlanTask& task, const Rule& rule,
                                               std::int32_t by);

/// Whether a violation is one of this rule.
[[nodiscard]] bool breaks(const PlanTask& task, const Rule& rule, const Violation& violation);

/// "rest of 20 minutes in U16".
[[nodiscard]] std::string in_words(const PlanTask& task, const Rule& rule);

/// What a plan without the rule takes of it.
struct Loosening {
    Rule rule;
    std::size_t places = 0;    ///< violations of the rule
    std::int64_t minutes = 0;  ///< of all of them, or matches too many
    std::int32_t worst = 0;    ///< the most of one
    friend bool operator==(const Loosening&, const Loosening&) = default;
};
[[nodiscard]] Loosening loosening(const PlanTask& task, const Rule& rule, const Plan& plan);
/// "2 matches end up to 30 minutes after the courts close".
[[nodiscard]] std::string in_words(const PlanTask& task, const Loosening& loosening);

}  // namespace courthand::plan
