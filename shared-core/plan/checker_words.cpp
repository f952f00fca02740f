#include <fmt/format.h>

#include "courthand/plan/checker.h"

namespace courthand::plan {

namespace {

using Kind = Violation::Kind;

class Words {
  public:
    Words(const PlanTask& task, const Plan& plan, const Violation& violation)
        : task_{task}, plan_{plan}, violation_{violation}, match_{task.matches[violation.match]} {}

    [[nodiscard]] std::string text() const {
        switch (violation_.kind) {
            case Kind::not_placed:
                return match_.name + " has no place";
            case Kind::closed:
                return fmt::format("{} is not open from {} to {}, for {}", court(), begin(), end(),
                                   match_.name);
            case Kind::court_taken:
                return fmt::format("{} has {} and {} at {}", court(), other(), match_.name,
                                   begin());
            case Kind::order:
                return fmt::format("{} begins at {}, {} minutes before it can after {}",
                                   match_.name, begin(), violation_.minutes, other());
            case Kind::feature:
                return fmt::format("{} lacks what {} needs", court(), match_.name);
            case Kind::kept:
                return fmt::format("{} is kept for others than {}", court(), match_.name);
            case Kind::pinned:
                return match_.name + " is not where it must stay";
            case Kind::shown_twice:
                return fmt::format("{} begins at {}, which the clock shows twice", match_.name,
                                   begin());
            case Kind::too_early:
                return fmt::format("{} begins at {}, {} minutes too early", match_.name, begin(),
                                   violation_.minutes);
            case Kind::too_late:
            case Kind::late_finish:
                return fmt::format("{} ends at {}, {} minutes too late", match_.name, end(),
                                   violation_.minutes);
            case Kind::at_once:
                return fmt::format("{} is at {} and {} at once, at {}", who(), other(), match_.name,
                                   begin());
            case Kind::short_rest:
                return fmt::format("{} rests {} minutes between {} and {}, and not {}", who(),
                                   group().rest - violation_.minutes, other(), match_.name,
                                   group().rest);
            case Kind::in_a_row:
                return fmt::format("{} plays {} matches in a row with {}, at most {}", who(),
                                   group().most_in_a_row + violation_.minutes, match_.name,
                                   group().most_in_a_row);
            case Kind::a_day:
                return fmt::format("{} plays {} matches on the day of {}, at most {}", who(),
                                   group().most_a_day + violation_.minutes, match_.name,
                                   group().most_a_day);
        }
        return {};
    }

  private:
    [[nodiscard]] const Group& group() const { return task_.groups[match_.group]; }
    [[nodiscard]] const std::string& who() const { return task_.parties[*violation_.party].name; }
    [[nodiscard]] Minute start() const { return plan_.places[violation_.match]->start; }
    [[nodiscard]] std::string begin() const { return in_words(task_, start()); }
    [[nodiscard]] std::string end() const { return in_words(task_, start() + match_.duration); }
    [[nodiscard]] std::string court() const {
        return "court " + task_.courts[plan_.places[violation_.match]->court].name;
    }
    [[nodiscard]] const std::string& other() const { return task_.matches[*violation_.other].name; }

    const PlanTask& task_;
    const Plan& plan_;
    const Violation& violation_;
    const TaskMatch& match_;
};

}  // namespace

std::string in_words(const PlanTask& task, const Plan& plan, const Violation& violation) {
    return Words{task, plan, violation}.text();
}

std::string in_words(Wish wish, std::int64_t amount) {
    switch (wish) {
        case Wish::waiting:
            return fmt::format("teams wait {} minutes", amount);
        case Wish::end:
            return fmt::format("days last {} minutes", amount);
        case Wish::spread:
            return fmt::format("{} minutes of long waits", amount);
        case Wish::courts:
            return fmt::format("{} matches away from the court of their pool", amount);
        case Wish::duties:
            return fmt::format("{} duties more than even", amount);
        case Wish::told:
            return fmt::format("{} to be told", amount);
    }
    return {};
}

}  // namespace courthand::plan
