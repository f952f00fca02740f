// Sets of courses of the open matches, and the shortest conditions that stay within one.
// Internal to shared-core/standings.
#pragma once

#include <cstdint>
#include <vector>

#include "courthand/standings/needs.h"

namespace courthand::standings {

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

/// All courses of some matches: course `c` gives match `m` the outcome `c / outcomes^m % outcomes`.
class CourseTable {
  public:
    CourseTable(std::size_t matches, std::size_t outcomes, std::uint8_t sets_to_win,
                std::uint64_t courses);

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
    std::vector<Term> terms_;  ///< by match; plain wins before wins with their sets
};

}  // namespace courthand::standings
