#include "courthand/forecast/set_course.h"

#include <array>
#include <cassert>
#include <utility>
#include <vector>

#include "courthand/match/set_end.h"

namespace courthand::forecast {
namespace {

/// All scores that a set may stand at after the same number of rallies, with their chances.
class Front {
  public:
    Front(const MatchFormat& format, std::uint8_t set_number, SetNow now, RallyOdds odds)
        : format_{format}, set_{set_number}, start_{now}, odds_{odds} {
        assert(!wins_set(format, set_number, now.a, now.b));
        assert(!wins_set(format, set_number, now.b, now.a));
        at_.resize(1);
        at_[0][index(now.server)] = 1;
    }

    /// One rally more; gives the chance that it ends the set, by winner.
    PerTeam<double> step() {
        PerTeam<double> won;
        std::vector<Chances> next(at_.size() + 1);
        for (std::size_t i = first_; i < at_.size(); ++i) {
            const int a = start_.a + static_cast<int>(i);
            const int b = start_.b + static_cast<int>(rallies_ - i);
            const double to_a = at_[i][0] * odds_.serving + at_[i][1] * odds_.receiving;
            const double to_b = at_[i][0] + at_[i][1] - to_a;
            if (wins_set(format_, set_, a + 1, b))
                won.a += to_a;
            else
                next[i + 1][index(Team::A)] += to_a;
            if (wins_set(format_, set_, b + 1, a))
                won.b += to_b;
            else
                next[i][index(Team::B)] += to_b;
        }
        ++rallies_;
        at_ = std::move(next);
        leave_empty_ends();
        open_ -= won.a + won.b;
        return won;
    }

    [[nodiscard]] double open() const noexcept { return open_; }
    /// The chance to stand where A has made `points` of the rallies so far.
    [[nodiscard]] double with_points(std::size_t points) const {
        return points < at_.size() ? at_[points][0] + at_[points][1] : 0;
    }

  private:
    using Chances = std::array<double, 2>;  ///< by who serves next

    /// After a while only scores near to level are left.
    void leave_empty_ends() {
        const auto empty = [](const Chances& c) { return c[0] + c[1] == 0; };
        while (at_.size() > first_ && empty(at_.back())) at_.pop_back();
        while (first_ < at_.size() && empty(at_[first_])) ++first_;
    }

    const MatchFormat& format_;
    std::uint8_t set_;
    SetNow start_;
    RallyOdds odds_;
    std::vector<Chances> at_;  ///< by points that A has made
    std::size_t first_ = 0;    ///< none stands below
    std::size_t rallies_ = 0;
    double open_ = 1;
};

void share_out_the_rest(SetCourse& course, double open) {
    const double decided = 1 - open;
    // A set that nobody can win (a receiving team never loses) is anybody's.
    if (decided <= 0) {
        course.won_after.a.back() = course.won_after.b.back() = 0.5;
        return;
    }
    for (Lengths* lengths : {&course.won_after.a, &course.won_after.b})
        for (double& chance : *lengths) chance /= decided;
}

}  // namespace

Lengths SetCourse::rallies() const {
    Lengths all = won_after.a;
    add(all, won_after.b);
    return all;
}

SetCourse set_course(const MatchFormat& format, std::uint8_t set_number, SetNow now,
                     RallyOdds odds) {
    Front front{format, set_number, now, odds};
    SetCourse course{{{0.0}, {0.0}}};
    for (std::size_t n = 0; n < most_rallies_ahead && front.open() > negligible; ++n) {
        const PerTeam<double> won = front.step();
        course.won_after.a.push_back(won.a);
        course.won_after.b.push_back(won.b);
    }
    share_out_the_rest(course, front.open());
    return course;
}

double chance_of_score(const MatchFormat& format, std::uint8_t set_number, SetNow now,
                       RallyOdds odds, Score score) {
    const int to_a = score.a - now.a;
    const int to_b = score.b - now.b;
    if (to_a < 0 || to_b < 0) return 0;
    Front front{format, set_number, now, odds};
    for (int n = 0; n < to_a + to_b; ++n) front.step();
    return front.with_points(static_cast<std::size_t>(to_a));
}

}  // namespace courthand::forecast
