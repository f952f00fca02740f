// The walk through a chain: splits teams that are level until each has a place or the chain ends.
// Internal to shared-core/standings.
#pragma once

#include <optional>
#include <vector>

#include "courthand/standings/rank.h"
#include "standings/tally.h"

namespace courthand::standings {

class Separation {
  public:
    /// `results`: those that count. Comparisons are written down only when `keep_reasons`.
    Separation(const Chain& chain, const Pool& pool, const std::vector<Result>& results,
               bool keep_reasons);

    /// Fills `places` (and `comparisons`) with the order of `teams`.
    void run(const std::vector<TeamIndex>& teams);

    std::vector<Place> places;
    std::vector<Comparison> comparisons;
    std::vector<Record> records;  ///< over all results that count

  private:
    /// Where a group of level teams stands on its way through the chain.
    struct Walk {
        std::vector<TeamIndex> teams;
        std::uint16_t first_place = 1;
        std::size_t step = 0;
        std::uint32_t passed = 0;  ///< steps over all matches that left these teams level
        TeamSet first_tied = 0;    ///< see MutualAmong
        std::vector<std::size_t> because;
    };

    void separate(Walk walk);
    /// Splits the group by the values of a step and sends each part on.
    void split(const Walk& walk, std::vector<Quotient> values);
    void finish(Walk walk, Open open);
    [[nodiscard]] std::optional<std::vector<Quotient>> values_of(const Walk& walk, TeamSet counted);
    [[nodiscard]] TeamSet counted_in(Walk& walk) const;
    [[nodiscard]] bool applies(const Walk& walk) const;
    [[nodiscard]] bool place_matters(const Walk& walk) const;
    [[nodiscard]] std::optional<std::size_t> decision_on(const std::vector<TeamIndex>& teams) const;

    const Chain& chain_;
    const Pool& pool_;
    const std::vector<Result>& results_;
    bool keep_reasons_;
    std::vector<Record> mutual_;
};

/// Whether a smaller value of the criterion is the better one.
[[nodiscard]] constexpr bool less_is_better(Criterion criterion) noexcept {
    return criterion == Criterion::points_against || criterion == Criterion::lost_to_all_others;
}

}  // namespace courthand::standings
