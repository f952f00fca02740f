#include "standings/conditions.h"

#include <algorithm>

namespace courthand::standings {

CourseTable::CourseTable(std::size_t matches, std::size_t outcomes, std::uint8_t sets_to_win,
                         std::uint64_t courses)
    : courses_{courses} {
    const bool with_sets = outcomes > 2;
    const std::size_t wins = outcomes / 2;  // the outcomes in which the first wins
    std::uint64_t stride = 1;
    for (std::size_t m = 0; m < matches; ++m, stride *= outcomes) {
        std::vector<Term> plain{{{m, true}, none()}, {{m, false}, none()}};
        std::vector<Term> exact;
        for (std::size_t o = 0; with_sets && o < outcomes; ++o) {
            const auto sets = static_cast<std::uint8_t>(o % sets_to_win);
            exact.push_back({{m, o < wins, sets}, none()});
        }
        for (std::uint64_t c = 0; c < courses; ++c) {
            const auto o = static_cast<std::size_t>(c / stride % outcomes);
            plain[o < wins ? 0 : 1].courses.add(c);
            if (with_sets) exact[o].courses.add(c);
        }
        for (Term& t : plain) terms_.push_back(std::move(t));
        for (Term& t : exact) terms_.push_back(std::move(t));
    }
}

bool CourseTable::enough(const std::vector<std::size_t>& chosen, const CourseSet& goal) const {
    for (std::size_t w = 0; w < goal.words().size(); ++w) {
        std::uint64_t all = ~goal.words()[w];
        for (const std::size_t t : chosen) all &= terms_[t].courses.words()[w];
        if (all != 0) return false;
    }
    return true;
}

bool CourseTable::says_more(const Requirement& a, const Requirement& b) const noexcept {
    return a.match == b.match && a.first_wins == b.first_wins &&
           (b.loser_sets == Requirement::any_sets || a.loser_sets == b.loser_sets);
}

bool CourseTable::implied(const std::vector<std::size_t>& chosen,
                          const std::vector<std::vector<std::size_t>>& found) const {
    return std::any_of(found.begin(), found.end(), [&](const std::vector<std::size_t>& known) {
        return std::all_of(known.begin(), known.end(), [&](std::size_t k) {
            return std::any_of(chosen.begin(), chosen.end(), [&](std::size_t c) {
                return says_more(terms_[c].requirement, terms_[k].requirement);
            });
        });
    });
}

void CourseTable::extend(std::vector<std::size_t>& chosen, std::size_t from, std::size_t length,
                         const CourseSet& goal,
                         std::vector<std::vector<std::size_t>>& found) const {
    if (found.size() >= Needs::most_conditions) return;
    if (chosen.size() == length) {
        if (!implied(chosen, found) && enough(chosen, goal)) found.push_back(chosen);
        return;
    }
    for (std::size_t t = from; t < terms_.size(); ++t) {
        const bool same_match = !chosen.empty() && terms_[chosen.back()].requirement.match ==
                                                       terms_[t].requirement.match;
        if (same_match) continue;
        chosen.push_back(t);
        extend(chosen, t + 1, length, goal, found);
        chosen.pop_back();
    }
}

std::vector<Condition> CourseTable::shortest(const CourseSet& goal) const {
    std::vector<std::vector<std::size_t>> found;
    std::vector<std::size_t> chosen;
    for (std::size_t length = 1; length <= Needs::longest_condition; ++length)
        extend(chosen, 0, length, goal, found);
    std::vector<Condition> conditions;
    for (const auto& terms : found) {
        Condition condition;
        for (const std::size_t t : terms) condition.push_back(terms_[t].requirement);
        conditions.push_back(std::move(condition));
    }
    return conditions;
}

}  // namespace courthand::standings
