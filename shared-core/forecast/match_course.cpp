#include "courthand/forecast/match_course.h"

#include <cassert>
#include <cmath>

namespace courthand::forecast {
namespace {

constexpr std::size_t most = MatchFormat::most_sets;

MatchCourse over(PerTeam<std::uint8_t> sets) {
    MatchCourse course;
    const Winner winner = sets.a == sets.b  ? Winner::nobody
                          : sets.a > sets.b ? Winner::A
                                            : Winner::B;
    course.by[static_cast<std::size_t>(winner)][0] = {1.0};
    return course;
}

/// Calls `see(minutes, chance)` for every end of the match.
template <class See>
void each_end(const MatchCourse& course, SteadyPace pace, See see) {
    for (const MatchCourse::BySets& by_sets : course.by)
        for (std::size_t s = 0; s < by_sets.size(); ++s)
            for (std::size_t n = 0; n < by_sets[s].size(); ++n)
                see(pace.minutes(n, s), by_sets[s][n]);
}

}  // namespace

double MatchCourse::win(Winner winner) const {
    double sum = 0;
    for (const Lengths& lengths : by[static_cast<std::size_t>(winner)]) sum += total(lengths);
    return sum;
}

double MatchCourse::sets_to_end(std::size_t sets) const {
    double sum = 0;
    for (const BySets& by_sets : by) sum += total(by_sets.at(sets));
    return sum;
}

Lengths MatchCourse::rallies() const {
    Lengths all;
    for (const BySets& by_sets : by)
        for (const Lengths& lengths : by_sets) forecast::add(all, lengths);
    return all;
}

void MatchCourse::add(const MatchCourse& part, double share) {
    for (std::size_t w = 0; w < by.size(); ++w)
        for (std::size_t s = 0; s < by[w].size(); ++s)
            forecast::add(by[w][s], part.by[w][s], share);
}

double mean_minutes(const MatchCourse& course, SteadyPace pace) {
    double sum = 0;
    each_end(course, pace, [&](double minutes, double chance) { sum += minutes * chance; });
    return sum;
}

double deviation_of_minutes(const MatchCourse& course, SteadyPace pace) {
    const double middle = mean_minutes(course, pace);
    double sum = 0;
    each_end(course, pace, [&](double minutes, double chance) {
        sum += (minutes - middle) * (minutes - middle) * chance;
    });
    return std::sqrt(sum);
}

double chance_longer(const MatchCourse& course, SteadyPace pace, double minutes) {
    double sum = 0;
    each_end(course, pace, [&](double taken, double chance) {
        if (taken > minutes) sum += chance;
    });
    return sum;
}

MatchTable::MatchTable(const MatchFormat& format, RallyOdds odds)
    : format_{format}, odds_{odds}, courses_((most + 1) * (most + 1) * 2) {
    assert(format.sets >= 1 && format.sets <= most);
    // From the end to the beginning: what follows a set is there before the set.
    for (int played = format.sets; played >= 0; --played)
        for (int a = 0; a <= played; ++a)
            for (const Team server : {Team::A, Team::B})
                fill({static_cast<std::uint8_t>(a), static_cast<std::uint8_t>(played - a)}, server);
}

std::size_t MatchTable::place(PerTeam<std::uint8_t> sets, Team server) noexcept {
    return (sets.a * (most + 1) + sets.b) * 2 + index(server);
}

void MatchTable::fill(PerTeam<std::uint8_t> sets, Team server) {
    MatchCourse& here = courses_[place(sets, server)];
    if (match_over(format_, sets)) {
        here = over(sets);
        return;
    }
    const auto number = static_cast<std::uint8_t>(sets.a + sets.b + 1);
    const auto from = [&](Team first) {
        return after(set_course(format_, number, set_start(format_, first), odds_), sets, first);
    };
    if (!format_.deciding(number)) {
        here = from(server);
        return;
    }
    here.add(from(Team::A), 0.5);
    here.add(from(Team::B), 0.5);
}

MatchCourse MatchTable::after(const SetCourse& set, PerTeam<std::uint8_t> sets,
                              Team served_first) const {
    MatchCourse course;
    for (const Team winner : {Team::A, Team::B}) {
        PerTeam<std::uint8_t> then = sets;
        ++then[winner];
        const MatchCourse& rest = at_set_start(then, opponent(served_first));
        for (std::size_t w = 0; w < course.by.size(); ++w)
            for (std::size_t s = 0; s < most; ++s)
                add_sum(course.by[w][s + 1], set.won_after[winner], rest.by[w][s]);
    }
    return course;
}

const MatchCourse& MatchTable::at_set_start(PerTeam<std::uint8_t> sets, Team server) const {
    assert(sets.a <= most && sets.b <= most);
    return courses_[place(sets, server)];
}

MatchCourse MatchTable::course(const MatchNow& now) const {
    if (match_over(format_, now.sets)) return over(now.sets);
    const auto number = static_cast<std::uint8_t>(now.sets.a + now.sets.b + 1);
    return after(set_course(format_, number, now.set, odds_), now.sets, now.served_first);
}

}  // namespace courthand::forecast
