#include "standings/conditions.h"

#include <algorithm>
#include <utility>

namespace courthand::standings {

using Winner = Result::Winner;

std::vector<Outcome> scores_of(MatchLength length) {
    std::vector<Outcome> wins;
    const int to_win = length.sets / 2 + 1;
    const int most_lost = length.all_played ? (length.sets - 1) / 2 : to_win - 1;
    for (int lost = 0; lost <= most_lost; ++lost) {
        const int won = length.all_played ? length.sets - lost : to_win;
        wins.push_back(
            {Winner::first, true, static_cast<std::uint8_t>(won), static_cast<std::uint8_t>(lost)});
    }
    std::vector<Outcome> all = wins;
    for (const Outcome& w : wins)
        all.push_back({Winner::second, true, w.second_sets, w.first_sets});
    const auto half = static_cast<std::uint8_t>(length.sets / 2);
    if (length.all_played && length.sets % 2 == 0) all.push_back({Winner::none, true, half, half});
    return all;
}

std::vector<Outcome> winners_of(MatchLength length) {
    std::vector<Outcome> winners;
    for (const Outcome& score : scores_of(length)) {
        if (winners.empty() || winners.back().winner != score.winner)
            winners.push_back(score);
        else
            winners.back() = {score.winner, false, 0, 0};
    }
    return winners;
}

CourseTable::CourseTable(std::size_t matches, const std::vector<Outcome>& outcomes,
                         std::uint64_t courses)
    : courses_{courses} {
    const auto scores = [&](Winner winner) {
        return std::count_if(outcomes.begin(), outcomes.end(),
                             [&](const Outcome& o) { return o.winner == winner; });
    };
    std::uint64_t stride = 1;
    for (std::size_t m = 0; m < matches; ++m, stride *= outcomes.size()) {
        const auto add = [&](const Requirement& requirement, const auto& meets) {
            Term term{requirement, none()};
            for (std::uint64_t c = 0; c < courses; ++c)
                if (meets(outcomes[static_cast<std::size_t>(c / stride % outcomes.size())]))
                    term.courses.add(c);
            terms_.push_back(std::move(term));
        };
        for (const Winner winner : {Winner::first, Winner::second, Winner::none})
            if (scores(winner) > 0)
                add({m, winner}, [&](const Outcome& o) { return o.winner == winner; });
        // A winner with the only score there is says no more than the winner.
        for (const Outcome& exact : outcomes)
            if (scores(exact.winner) > 1)
                add({m, exact.winner, exact.loser_sets()},
                    [&](const Outcome& o) { return &o == &exact; });
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
    return a.match == b.match && a.winner == b.winner &&
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
