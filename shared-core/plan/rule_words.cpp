#include <fmt/format.h>

#include "courthand/plan/rule.h"

namespace courthand::plan {

namespace {

using Kind = Rule::Kind;

/// "1 match", "3 matches".
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view more) {
    return fmt::format("{} {}", count, count == 1 ? one : more);
}

}  // namespace

std::string in_words(const PlanTask& task, const Rule& rule) {
    const Group none;
    const Group& group = rule.group ? task.groups[*rule.group] : none;
    switch (rule.kind) {
        case Kind::hours:
            return "the hours of the courts";
        case Kind::rest:
            return fmt::format("a rest of {} minutes in {}", group.rest, group.name);
        case Kind::in_a_row:
            return fmt::format("at most {} matches in a row in {}", group.most_in_a_row,
                               group.name);
        case Kind::a_day:
            return fmt::format("at most {} matches a day in {}", group.most_a_day, group.name);
        case Kind::latest_finish:
            return "the latest finish of " + group.name;
        case Kind::not_before:
            return "the earliest beginnings in " + group.name;
        case Kind::latest_end:
            return "the latest ends in " + group.name;
        case Kind::features:
            return "the features of courts that matches of " + group.name + " need";
        case Kind::kept:
            return "courts kept for others than " + group.name;
        case Kind::persons:
            return "crews, officials and coaches are at one match at a time";
        case Kind::pinned:
            return "published matches stay where they are";
    }
    return {};
}

std::string in_words(const PlanTask& task, const Loosening& loosening) {
    const std::string matches = counted(loosening.places, "match", "matches");
    const std::string times = counted(loosening.places, "time", "times");
    switch (loosening.rule.kind) {
        case Kind::hours:
            return fmt::format("{} outside the hours, by up to {} minutes", matches,
                               loosening.worst);
        case Kind::rest:
            return fmt::format("{} a rest shorter by up to {} minutes", times, loosening.worst);
        case Kind::in_a_row:
        case Kind::a_day:
            return fmt::format("{} up to {} too many", times, loosening.worst);
        case Kind::latest_finish:
        case Kind::latest_end:
            return fmt::format("{} later, by up to {} minutes", matches, loosening.worst);
        case Kind::not_before:
            return fmt::format("{} earlier, by up to {} minutes", matches, loosening.worst);
        case Kind::features:
            return matches + " on courts that lack something";
        case Kind::kept:
            return matches + " on courts kept for others than " +
                   task.groups[*loosening.rule.group].name;
        case Kind::persons:
            return times + " somebody is at two matches at once";
        case Kind::pinned:
            return matches + " elsewhere than published";
    }
    return {};
}

}  // namespace courthand::plan
