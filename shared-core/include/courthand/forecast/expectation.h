// What is to be expected of the matches of one format: their course under all strengths, weighed.
#pragma once

#include <vector>

#include "courthand/forecast/match_course.h"
#include "courthand/forecast/strength.h"

namespace courthand::forecast {

/// Immutable and the same for every match of a format: made once, asked at every rally.
class Expectation {
  public:
    /// `serve`: as in StrengthPrior, -most_serve to most_serve.
    Expectation(const MatchFormat& format, double serve);

    /// A match that has not begun.
    [[nodiscard]] MatchCourse fresh(const StrengthPrior& prior) const;
    /// A match that stands so, after the rallies that each team has won in all its sets.
    [[nodiscard]] MatchCourse live(const StrengthPrior& prior, const MatchNow& now,
                                   PerTeam<int> rallies_won) const;
    [[nodiscard]] const MatchFormat& format() const noexcept { return format_; }
    [[nodiscard]] double serve() const noexcept { return serve_; }

  private:
    MatchFormat format_;
    double serve_;
    std::vector<MatchTable> tables_;  ///< by place of strength
};

}  // namespace courthand::forecast
