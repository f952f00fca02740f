// What the matches of a day teach: its pace, and how late matches begin.
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "courthand/forecast/day_forecast.h"
#include "forecast/world.h"

namespace courthand::forecast {
namespace {

struct Begun {
    MatchIndex match = 0;
    Minute began = 0;
    Minute ended = 0;  ///< infinite: not yet
    Winner winner = Winner::nobody;
    Played played{};
};

std::vector<Begun> begun_in(const Day& day) {
    std::vector<Begun> begun;
    for (std::size_t m = 0; m < day.matches.size(); ++m) {
        const auto match = static_cast<MatchIndex>(m);
        if (const auto* over = std::get_if<Over>(&day.matches[m].state))
            begun.push_back({match, over->began, over->ended, over->winner, over->played});
        if (const auto* live = std::get_if<Live>(&day.matches[m].state))
            begun.push_back({match, live->began, std::numeric_limits<Minute>::infinity(),
                             Winner::nobody, live->played});
    }
    std::stable_sort(begun.begin(), begun.end(),
                     [](const Begun& x, const Begun& y) { return x.began < y.began; });
    return begun;
}

/// Whether somebody of a match has another one to play or work before.
bool expected_elsewhere(const Day& day, MatchIndex match) {
    const DayMatch& here = day.matches[match];
    const auto concerns = [](const DayMatch& other, const Entrant& who) {
        return std::find(other.sides.begin(), other.sides.end(), who) != other.sides.end() ||
               std::find(other.workers.begin(), other.workers.end(), who) != other.workers.end();
    };
    return std::any_of(day.matches.begin(), day.matches.end(), [&](const DayMatch& other) {
        if (&other == &here || !std::holds_alternative<Waiting>(other.state) ||
            other.planned > here.planned)
            return false;
        return concerns(other, here.sides[0]) || concerns(other, here.sides[1]) ||
               std::any_of(here.workers.begin(), here.workers.end(),
                           [&](const Entrant& worker) { return concerns(other, worker); });
    });
}

/// Matches that could have begun by now and have not.
double overdue(const Day& day, World& world) {
    double minutes = 0;
    for (const auto& court : day.courts) {
        const auto next = std::find_if(court.begin(), court.end(), [&](MatchIndex match) {
            return !std::holds_alternative<Over>(day.matches[match].state);
        });
        if (next == court.end() || !std::holds_alternative<Waiting>(day.matches[*next].state))
            continue;
        const DayMatch& match = day.matches[*next];
        const Minute possible = world.ready(*next).at + day.kinds[match.kind].warm_up;
        if (std::isfinite(possible) && possible < day.now && !expected_elsewhere(day, *next))
            minutes += day.now - possible;
    }
    return minutes;
}

}  // namespace

Learned learned(const Day& day) {
    Learned result;
    std::vector<std::vector<Played>> played(day.kinds.size());
    World world{day};
    Starts starts;
    for (const Begun& begun : begun_in(day)) {
        const KindIndex kind = day.matches[begun.match].kind;
        played[kind].push_back(begun.played);
        const Minute possible = world.ready(begun.match).at + day.kinds[kind].warm_up;
        if (std::isfinite(possible)) {
            starts.seen += 1;
            starts.minutes_late += std::max(0.0, begun.began - possible);
        }
        world.play(begun.match, begun.ended, begun.winner);
    }
    starts.minutes_late += overdue(day, world);
    for (std::size_t k = 0; k < day.kinds.size(); ++k)
        result.paces.push_back(pace_of_day(day.kinds[k].pace, played[k]));
    result.lateness = lateness_of_day(day.punctuality, starts);
    return result;
}

EarlierDay shown_by(const Day& day, KindIndex kind) {
    EarlierDay shown;
    std::vector<std::pair<MatchFormat, double>> expected;
    const auto rallies_of = [&](const MatchFormat& format) {
        for (const auto& [known, rallies] : expected)
            if (known == format) return rallies;
        const StrengthPrior& strength = day.kinds[kind].strength;
        const double rallies = mean(Expectation{format, strength.serve}.fresh(strength).rallies());
        return expected.emplace_back(format, rallies).second;
    };
    for (std::size_t m = 0; m < day.matches.size(); ++m) {
        const auto* over = std::get_if<Over>(&day.matches[m].state);
        if (over == nullptr || day.matches[m].kind != kind || over->played.rallies <= 0) continue;
        shown.matches += 1;
        shown.rallies += rallies_of(format_of(day, static_cast<MatchIndex>(m)));
        shown.seconds += over->played.seconds;
    }
    return shown;
}

}  // namespace courthand::forecast
