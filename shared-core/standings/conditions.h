// Sets of courses of the open matches, and the shortest conditions that stay within one.
// Internal to shared-core/standings.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "courthand/standings/needs.h"

namespace courthand::standings {

/// What can become of an open match: who wins it, or nobody, and the sets as far as they are told.
struct Outcome {
    Result::Winner winner = Result::Winner::none;
    bool sets_known = true;
    std::uint8_t first_sets = 0;
    std::uint8_t second_sets = 0;

    [[nodiscard]] std::uint8_t loser_sets() const noexcept {
        return std::min(first_sets, second_sets);
    }
};

/// Every score in sets: wins of the first side, then of the second, then level; each closer than
/// the one before.
[[nodiscard]] std::vector<Outcome> scores_of(MatchLength length);

/// Winners only, in the same order; with the sets where these follow from the winner.
[[nodiscard]] std::vector<Outcome> winners_of(MatchLength length);

/// A set of courses by number.
class CourseSet {
  public:
    explicit CourseSet(std::uint64_t courses)
        : words_(static_cast<std::size_t>((courses + 63) / 64), 0) {}

    void add(std::uint64_t course) noexcept {
        words_[static_cast<std::size_t>(course / 64)] |= std::uint64_t{1} << (course % 64);
    }
    [[nodiscard]] const std::vector<std::uint64_t>& words() const noexcept { return words_; }

  private:
    std::vector<std::uint64_t> words_;
};

/// All courses of some matches: course `c` gives match `m` the outcome of number
/// `c / n^m % n`, of `n` outcomes.
class CourseTable {
  public:
    CourseTable(std::size_t matches, const std::vector<Outcome>& outcomes, std::uint64_t courses);

    [[nodiscard]] CourseSet none() const { return CourseSet{courses_}; }

    /// The shortest conditions under which every course is one of `goal`. None contains another.
    [[nodiscard]] std::vector<Condition> shortest(const CourseSet& goal) const;

  private:
    struct Term {
        Requirement requirement;
        CourseSet courses;
    };

    void extend(std::vector<std::size_t>& chosen, std::size_t from, std::size_t length,
                const CourseSet& goal, std::vector<std::vector<std::size_t>>& found) const;
    [[nodiscard]] bool enough(const std::vector<std::size_t>& chosen, const CourseSet& goal) const;
    [[nodiscard]] bool implied(const std::vector<std::size_t>& chosen,
                               const std::vector<std::vector<std::size_t>>& found) const;
    [[nodiscard]] bool says_more(const Requirement& a, const Requirement& b) const noexcept;

    std::uint64_t courses_;
    std::vector<Term> terms_;  ///< by match; winners alone before winners with their sets
};

}  // namespace courthand::standings
