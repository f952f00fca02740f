#include "event/score_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "courthand/match/set_end.h"

namespace courthand::event {
namespace {

/// Sets won by either side, and whether the match is over.
class Course {
  public:
    explicit Course(const MatchFormat& format) : format_{format} {}

    void add(SetScore set) {
        ++played_;
        (set.first > set.second ? first_ : second_) += 1;
    }
    [[nodiscard]] bool over() const {
        if (format_.all_sets_played != 0) return played_ >= format_.sets;
        return std::max(first_, second_) >= format_.sets_to_win();
    }

  private:
    const MatchFormat& format_;
    int played_ = 0;
    int first_ = 0;
    int second_ = 0;
};

[[nodiscard]] SetScore scored(bool by_first, int winner, int loser) {
    const auto high = static_cast<std::uint16_t>(winner);
    const auto low = static_cast<std::uint16_t>(loser);
    return by_first ? SetScore{high, low} : SetScore{low, high};
}

[[nodiscard]] std::uint8_t set_number(std::size_t number) {
    return static_cast<std::uint8_t>(std::min<std::size_t>(number, MatchFormat::most_sets));
}

/// The points with which a side wins a set in which the other has `theirs`.
[[nodiscard]] int winning_points(const MatchFormat& format, std::uint8_t set, int theirs) {
    int points = std::max<int>(format.points_of(set), theirs + 1);
    while (!wins_set(format, set, points, theirs)) ++points;
    return points;
}

/// Of the set that was over before this score: the score at which it was, the winner's first.
[[nodiscard]] SetScore over_at(const MatchFormat& format, std::uint8_t set, int high, int low) {
    const bool loser_had_won = low > format.start_score && wins_set(format, set, low, low - 1);
    if (loser_had_won) return scored(true, low, low - 1);
    int points = low + 1;
    while (points < high && !wins_set(format, set, points, low)) ++points;
    return scored(true, points, low);
}

/// Why the set cannot end so.
[[nodiscard]] std::string why_not(const MatchFormat& format, std::uint8_t set, SetScore score) {
    const int high = std::max(score.first, score.second);
    const int low = std::min(score.first, score.second);
    if (low < format.start_score)
        return fmt::format("both sides begin it with {}", format.start_score);
    if (!set_can_come_to(format, set, high, low)) {
        const SetScore over = over_at(format, set, high, low);
        const bool turned = score.first < score.second;
        return fmt::format("it was over at {}-{}", turned ? over.second : over.first,
                           turned ? over.first : over.second);
    }
    if (high == low) return "nobody has won it";
    if (high < format.points_of(set))
        return fmt::format("nobody has the {} points that win it", format.points_of(set));
    return fmt::format("nobody has the lead of {} that wins it", format.lead);
}

}  // namespace

bool set_can_end(const MatchFormat& format, std::size_t number, SetScore score) {
    const int high = std::max(score.first, score.second);
    const int low = std::min(score.first, score.second);
    const std::uint8_t set = set_number(number);
    return low >= format.start_score && wins_set(format, set, high, low) &&
           set_can_come_to(format, set, high, low);
}

std::string unplayable(const MatchFormat& format) {
    for (const std::uint8_t set : {std::uint8_t{1}, format.sets}) {
        const char* const which = format.deciding(set) ? "the deciding set" : "a set";
        const int points = format.points_of(set);
        if (const int cap = format.cap_of(set); cap != 0 && cap < points)
            return fmt::format("the cap of {}, {}, is below its {} points", which, cap, points);
        if (format.start_score >= points)
            return fmt::format("{} begins at {}, and {} points win it", which, format.start_score,
                               points);
    }
    return {};
}

std::string impossible(const MatchFormat& format, const std::vector<SetScore>& sets) {
    Course course{format};
    for (std::size_t i = 0; i < sets.size(); ++i) {
        if (course.over()) return fmt::format("the match is over before set {}", i + 1);
        if (!set_can_end(format, i + 1, sets[i]))
            return fmt::format("set {} cannot end {}-{}: {}", i + 1, sets[i].first, sets[i].second,
                               why_not(format, set_number(i + 1), sets[i]));
        course.add(sets[i]);
    }
    if (!course.over()) return fmt::format("the match is not over after {} sets", sets.size());
    return {};
}

std::vector<SetScore> lost_outright(const MatchFormat& format, bool by_first) {
    return completed(format, {}, by_first);
}

std::vector<SetScore> completed(const MatchFormat& format, std::vector<SetScore> stood,
                                bool lost_by_first) {
    Course course{format};
    for (std::size_t i = 0; i < stood.size(); ++i) {
        const bool last = i + 1 == stood.size();
        if (last && !set_can_end(format, i + 1, stood[i])) {
            const int kept = lost_by_first ? stood[i].first : stood[i].second;
            stood[i] =
                scored(!lost_by_first, winning_points(format, set_number(i + 1), kept), kept);
        }
        course.add(stood[i]);
    }
    while (!course.over() && stood.size() < MatchFormat::most_sets) {
        stood.push_back(scored(!lost_by_first, format.points_of(set_number(stood.size() + 1)),
                               format.start_score));
        course.add(stood.back());
    }
    return stood;
}

}  // namespace courthand::event
