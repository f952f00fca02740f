#include "courthand/forecast/repair.h"

#include <algorithm>
#include <utility>

namespace courthand::forecast {
namespace {

/// The late match and those that wait before it on its court, nearest to it first.
std::vector<MatchIndex> movable(const Day& day, MatchIndex late) {
    std::vector<MatchIndex> matches;
    for (const auto& court : day.courts) {
        const auto found = std::find(court.begin(), court.end(), late);
        if (found == court.end()) continue;
        for (auto match = found + 1; match != court.begin();)
            if (waits(day, *--match)) matches.push_back(*match);
    }
    return matches;
}

/// Behind how many matches of a court this one would come by the times at which they begin.
std::uint16_t behind_by_forecast(const Day& day, const DayForecast& forecast,
                                 const std::vector<MatchIndex>& court, Minute planned) {
    const auto after = std::find_if(court.begin(), court.end(), [&](MatchIndex match) {
        return waits(day, match) && forecast.matches[match].start.p50() > planned;
    });
    return static_cast<std::uint16_t>(after - court.begin());
}

/// A change, and about how many minutes it may save by the forecast before it: which are tried
/// first, no more.
struct Candidate {
    DayChange change;
    double promise = 0;
};

class Candidates {
  public:
    Candidates(const Day& day, const DayForecast& forecast) : day_{day}, forecast_{forecast} {}

    void add_changes_of(MatchIndex match, const std::vector<MatchFormat>& shorter) {
        for (const MatchFormat& format : shorter)
            all_.push_back({Shorten{match, format}, shortened(match, format)});
        for (std::size_t c = 0; c < day_.courts.size(); ++c) {
            const auto& court = day_.courts[c];
            if (std::find(court.begin(), court.end(), match) != court.end()) continue;
            const Minute planned = day_.matches[match].planned;
            const auto behind = behind_by_forecast(day_, forecast_, court, planned);
            all_.push_back({Move{match, static_cast<std::uint16_t>(c), behind, planned},
                            moved(match, court, behind)});
            if (behind < court.size())
                all_.push_back({Swap{match, court[behind]}, swapped(match, court[behind])});
        }
    }

    /// The most promising first; level ones as they were added.
    [[nodiscard]] std::vector<DayChange> best(std::size_t most) {
        std::stable_sort(all_.begin(), all_.end(), [](const Candidate& x, const Candidate& y) {
            return x.promise > y.promise;
        });
        std::vector<DayChange> changes;
        for (const Candidate& candidate : all_)
            if (changes.size() < most) changes.push_back(candidate.change);
        return changes;
    }

  private:
    [[nodiscard]] const MatchForecast& of(MatchIndex match) const {
        return forecast_.matches[match];
    }
    /// How late a match is that would begin so much earlier or later than it is expected to.
    [[nodiscard]] double late(MatchIndex match, double later) const {
        return std::max(0.0, of(match).start.p50() + later - day_.matches[match].planned);
    }
    /// What a court has to gain from a place on when all there begins so much later.
    [[nodiscard]] double gain(const std::vector<MatchIndex>& court, std::size_t from,
                              double later) const {
        double gained = 0;
        for (std::size_t i = from; i < court.size(); ++i)
            if (waits(day_, court[i])) gained += late(court[i], 0) - late(court[i], later);
        return gained;
    }
    /// The same of all behind a match on its own court.
    [[nodiscard]] double gain_behind(MatchIndex match, double later) const {
        for (const auto& court : day_.courts) {
            const auto found = std::find(court.begin(), court.end(), match);
            if (found != court.end())
                return gain(court, static_cast<std::size_t>(found - court.begin()) + 1, later);
        }
        return 0;
    }
    /// From warm-up to last rally.
    [[nodiscard]] double length(MatchIndex match) const {
        return of(match).end.p50() - of(match).start.p50() + warm_up(match);
    }
    [[nodiscard]] double warm_up(MatchIndex match) const {
        return day_.kinds[day_.matches[match].kind].warm_up;
    }

    [[nodiscard]] double moved(MatchIndex match, const std::vector<MatchIndex>& court,
                               std::uint16_t behind) const {
        const Minute free = behind == 0 ? day_.now : of(court[behind - 1U]).end.p50();
        const Minute there = std::max(free + warm_up(match), day_.matches[match].planned);
        return late(match, 0) - late(match, there - of(match).start.p50()) +
               gain_behind(match, -length(match)) + gain(court, behind, length(match));
    }
    /// Starts and planned times go along; what stands behind feels how long the other one is.
    [[nodiscard]] double swapped(MatchIndex first, MatchIndex second) const {
        const double longer = length(second) - length(first);
        return gain_behind(first, longer) + gain_behind(second, -longer);
    }
    /// As long as its points, about.
    [[nodiscard]] double shortened(MatchIndex match, const MatchFormat& format) const {
        const auto points = [](const MatchFormat& of) {
            return static_cast<double>(of.sets) * of.points;
        };
        const double share = 1 - points(format) / points(format_of(day_, match));
        return gain_behind(match, -share * (length(match) - warm_up(match)));
    }

    const Day& day_;
    const DayForecast& forecast_;
    std::vector<Candidate> all_;
};

std::vector<DayChange> changes(const Day& day, const DayForecast& forecast,
                               const RepairWish& wish) {
    Candidates candidates{day, forecast};
    for (const MatchIndex match : movable(day, wish.late))
        candidates.add_changes_of(match, wish.shorter);
    return candidates.best(most_repairs_tried);
}

/// Whether a change is made to this match itself.
bool is_of(const DayChange& change, MatchIndex match) {
    if (const auto* swap = std::get_if<Swap>(&change))
        return swap->first == match || swap->second == match;
    if (const auto* move = std::get_if<Move>(&change)) return move->match == match;
    return std::get<Shorten>(change).match == match;
}

Repair repair_of(const Day& day, const DayForecast& before, const DayChange& change,
                 const WhatIf& tried) {
    Repair repair{change, tried.late_before - tried.late_after, 0, tried.end_moves, tried.people};
    for (std::size_t m = 0; m < day.matches.size(); ++m)
        if (waits(day, static_cast<MatchIndex>(m)) && !is_of(change, static_cast<MatchIndex>(m)))
            repair.lost +=
                std::max(0.0, tried.after.matches[m].start.p50() - before.matches[m].start.p50());
    return repair;
}

}  // namespace

std::variant<std::vector<Repair>, Faults> repairs(Forecaster& forecaster, const Day& day,
                                                  const RepairWish& wish) {
    auto forecast = forecaster.forecast(day, wish.sampling);
    if (auto* faults = std::get_if<Faults>(&forecast)) return std::move(*faults);
    if (wish.late >= day.matches.size() || !waits(day, wish.late))
        return Faults{
            {"repair", "the late match is not one that waits", "name a match that has not begun"}};
    const auto& before = std::get<DayForecast>(forecast);
    std::vector<Repair> found;
    for (const DayChange& change : changes(day, before, wish)) {
        const auto tried = what_if(forecaster, day, before, change, wish.sampling);
        // One that would break the day is no repair.
        const auto* what = std::get_if<WhatIf>(&tried);
        if (what == nullptr) continue;
        const Repair repair = repair_of(day, before, change, *what);
        if (repair.saved > wish.minutes_each_person * static_cast<double>(repair.people))
            found.push_back(repair);
    }
    const auto worth = [&](const Repair& repair) {
        return repair.saved - wish.minutes_each_person * static_cast<double>(repair.people);
    };
    std::stable_sort(found.begin(), found.end(),
                     [&](const Repair& x, const Repair& y) { return worth(x) > worth(y); });
    if (found.size() > repairs_told) found.resize(repairs_told);
    return found;
}

}  // namespace courthand::forecast
