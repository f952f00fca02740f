// How a match goes on: who wins it, in how many sets and rallies. Exact; the sets are independent
// of each other but for who serves first.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "courthand/forecast/set_course.h"

namespace courthand::forecast {

/// Where a match stands: the sets that are won, and the one that is played or comes next.
struct MatchNow {
    PerTeam<std::uint8_t> sets;  ///< won
    SetNow set;
    Team served_first = Team::A;  ///< in this set; in the next one the other team does
    friend constexpr bool operator==(const MatchNow&, const MatchNow&) = default;
};

/// Where a match of this format begins.
[[nodiscard]] constexpr MatchNow match_start(const MatchFormat& format, Team server) noexcept {
    return {{}, set_start(format, server), server};
}

/// Who wins; nobody where a fixed number of sets may end level.
enum class Winner : std::uint8_t { A, B, nobody };
[[nodiscard]] constexpr Winner winner_of(Team team) noexcept {
    return team == Team::A ? Winner::A : Winner::B;
}

/// The chances of all ends of a match, by winner, sets that are still to end, and further rallies.
struct MatchCourse {
    /// By sets still to end, 0 to the most; 0 is a match that is over.
    using BySets = std::array<Lengths, MatchFormat::most_sets + 1>;
    std::array<BySets, 3> by;

    [[nodiscard]] double win(Winner winner) const;
    [[nodiscard]] double sets_to_end(std::size_t sets) const;  ///< the chance of just so many
    [[nodiscard]] Lengths rallies() const;                     ///< whoever wins

    /// this += share * part
    void add(const MatchCourse& part, double share);
};

/// A pace without uncertainty: what a table on paper reckons with.
struct SteadyPace {
    double seconds_per_rally = 30;
    double interval_minutes = 3;  ///< between two sets
    /// Minutes of so many rallies in so many sets; an interval lies between two sets.
    [[nodiscard]] constexpr double minutes(std::size_t rallies, std::size_t sets) const noexcept {
        return static_cast<double>(rallies) * seconds_per_rally / 60 +
               (sets > 1 ? static_cast<double>(sets - 1) * interval_minutes : 0);
    }
};
[[nodiscard]] double mean_minutes(const MatchCourse& course, SteadyPace pace);
[[nodiscard]] double deviation_of_minutes(const MatchCourse& course, SteadyPace pace);
/// The chance that the rest of the match takes more than so many minutes.
[[nodiscard]] double chance_longer(const MatchCourse& course, SteadyPace pace, double minutes);

/// The courses of one format under the same odds, from every score in sets. Immutable; made once
/// and asked at every rally.
class MatchTable {
  public:
    MatchTable(const MatchFormat& format, RallyOdds odds);

    /// From before the first rally of the next set, which this team serves first. Before a deciding
    /// set there is a toss, so there it does not matter.
    [[nodiscard]] const MatchCourse& at_set_start(PerTeam<std::uint8_t> sets, Team server) const;
    [[nodiscard]] MatchCourse course(const MatchNow& now) const;

  private:
    [[nodiscard]] static std::size_t place(PerTeam<std::uint8_t> sets, Team server) noexcept;
    void fill(PerTeam<std::uint8_t> sets, Team server);
    [[nodiscard]] MatchCourse after(const SetCourse& set, PerTeam<std::uint8_t> sets,
                                    Team served_first) const;

    MatchFormat format_;
    RallyOdds odds_;
    std::vector<MatchCourse> courses_;
};

/// Whether a match is over at this score in sets.
[[nodiscard]] constexpr bool match_over(const MatchFormat& format,
                                        PerTeam<std::uint8_t> sets) noexcept {
    if (format.all_sets_played != 0) return sets.a + sets.b >= format.sets;
    return sets.a >= format.sets_to_win() || sets.b >= format.sets_to_win();
}

}  // namespace courthand::forecast
