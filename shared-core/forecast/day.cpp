#include "courthand/forecast/day.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <initializer_list>
#include <limits>
#include <queue>
#include <utility>

#include "courthand/match/set_end.h"

namespace courthand::forecast {
namespace {

/// Calls `see` for every entrant of a match.
template <class See>
void each_entrant(const DayMatch& match, See see) {
    for (const Entrant& side : match.sides) see(side);
    for (const Entrant& worker : match.workers) see(worker);
}

std::string place_of(const Day& day, std::size_t match) {
    return fmt::format("match {}", day.matches[match].name);
}

void find_sizes(const Day& day, Faults& faults) {
    const auto within = [&](std::size_t size, std::size_t most, const char* what) {
        if (size > most)
            faults.push_back({"day", fmt::format("{} {}; a day has {} at most", size, what, most),
                              "forecast parts of it"});
    };
    within(day.courts.size(), most_courts, "courts");
    within(day.matches.size(), most_matches, "matches");
    within(day.kinds.size(), most_kinds, "kinds of matches");
    within(static_cast<std::size_t>(day.teams) + day.crews, most_entrants, "teams and crews");
}

bool can_be_played(const MatchFormat& format) {
    return format.sets >= 1 && format.sets <= MatchFormat::most_sets && format.points >= 1 &&
           format.deciding_points >= 1 && format.lead >= 1;
}

bool positive(double value) {
    return std::isfinite(value) && value > 0;
}

bool none_below_zero(std::initializer_list<double> values) {
    return std::all_of(values.begin(), values.end(),
                       [](double value) { return std::isfinite(value) && value >= 0; });
}

void find_in_kinds(const Day& day, Faults& faults) {
    for (std::size_t k = 0; k < day.kinds.size(); ++k) {
        const Kind& kind = day.kinds[k];
        const auto place = fmt::format("kind {}", k);
        if (!can_be_played(kind.format))
            faults.push_back({place, "no set of this format can be played",
                              "give it 1 to 5 sets, points and a lead"});
        for (const double value : {kind.interval, kind.warm_up, kind.rest})
            if (!std::isfinite(value) || value < 0)
                faults.push_back({place, "interval, warm-up and rest are 0 minutes or more",
                                  "say them in minutes"});
        if (!positive(kind.pace.mean) || !positive(kind.pace.day_deviation) ||
            !positive(kind.pace.match_deviation) || !positive(kind.pace.rally_deviation) ||
            !none_below_zero({kind.pace.hall_deviation}))
            faults.push_back({place, "pace and its deviations are above 0 seconds",
                              "leave them at what they are without a value"});
        if (!(kind.strength.p > 0 && kind.strength.p < 1) || !positive(kind.strength.rallies) ||
            kind.strength.rallies < 2 || !(std::abs(kind.strength.serve) <= most_serve))
            faults.push_back({place, "a chance lies between 0 and 1 and weighs two rallies or more",
                              "leave it at an even match"});
    }
}

bool leads_somewhere(const Day& day, const Entrant& entrant) {
    switch (entrant.kind) {
        case Entrant::Kind::team:
            return entrant.of < day.teams;
        case Entrant::Kind::crew:
            return entrant.of < day.crews;
        case Entrant::Kind::winner:
        case Entrant::Kind::loser:
            return entrant.of < day.matches.size();
        case Entrant::Kind::place:
            return entrant.of < day.pools.size() && entrant.place >= 1 &&
                   entrant.place <= day.pools[entrant.of].teams.size();
    }
    return false;
}

/// Whether a match comes from itself.
bool comes_from_itself(const Day& day, std::size_t match, const Entrant& entrant) {
    if (entrant.kind == Entrant::Kind::winner || entrant.kind == Entrant::Kind::loser)
        return entrant.of == match;
    if (entrant.kind != Entrant::Kind::place) return false;
    const auto& of = day.pools[entrant.of].matches;
    return std::find(of.begin(), of.end(), match) != of.end();
}

/// Why a match cannot be under way at this score, or nothing.
std::string score_fault(const MatchFormat& format, const MatchNow& score) {
    if (score.sets.a + score.sets.b >= format.sets || match_over(format, score.sets))
        return "it is under way at a score at which it is over";
    const auto& [a, b, server] = score.set;
    if (a < 0 || b < 0 || a > most_points || b > most_points)
        return fmt::format("a set is under way at {}-{}", a, b);
    const auto number = static_cast<std::uint8_t>(score.sets.a + score.sets.b + 1);
    if (wins_set(format, number, a, b) || wins_set(format, number, b, a))
        return fmt::format("a set is under way at {}-{}, which ends it", a, b);
    return {};
}

void find_in_state(const Day& day, MatchIndex match, Faults& faults) {
    const auto fault = [&](std::string what, const char* cure) {
        faults.push_back({place_of(day, match), std::move(what), cure});
    };
    if (const auto* live = std::get_if<Live>(&day.matches[match].state)) {
        if (!std::isfinite(live->began)) fault("it began at no time", "say when it began");
        if (auto what = score_fault(format_of(day, match), live->score); !what.empty())
            fault(std::move(what), "give the score before its last rally, or say that it is over");
        if (!none_below_zero({live->played.rallies, live->played.seconds, live->interval_left}) ||
            live->rallies_won.a < 0 || live->rallies_won.b < 0)
            fault("what was played of it is no number of 0 or more", "leave it at nothing played");
    }
    if (const auto* over = std::get_if<Over>(&day.matches[match].state)) {
        if (!std::isfinite(over->began) || !std::isfinite(over->ended) || over->ended < over->began)
            fault("it ended at no time, or before it began", "say when it began and ended");
        if (!none_below_zero({over->played.rallies, over->played.seconds}))
            fault("what was played of it is no number of 0 or more", "leave it at nothing played");
    }
}

void find_in_matches(const Day& day, Faults& faults) {
    for (std::size_t m = 0; m < day.matches.size(); ++m) {
        const DayMatch& match = day.matches[m];
        if (match.kind >= day.kinds.size())
            faults.push_back({place_of(day, m), "its kind is not there", "name one of the kinds"});
        else
            find_in_state(day, static_cast<MatchIndex>(m), faults);
        if (match.format && !can_be_played(*match.format))
            faults.push_back({place_of(day, m), "no set of this format can be played",
                              "give it 1 to 5 sets, points and a lead"});
        if (match.workers.size() > most_workers)
            faults.push_back({place_of(day, m), "more workers than a match has",
                              fmt::format("name {} at most", most_workers)});
        each_entrant(match, [&](const Entrant& entrant) {
            if (!leads_somewhere(day, entrant))
                faults.push_back({place_of(day, m), "a side or a worker comes from nowhere",
                                  "name a team, a crew, a match or a place of a pool"});
            else if (comes_from_itself(day, m, entrant))
                faults.push_back({place_of(day, m), "it waits for itself",
                                  "name another match, or a pool that it is not of"});
        });
        for (const Entrant& side : match.sides)
            if (side.kind == Entrant::Kind::crew)
                faults.push_back({place_of(day, m), "a crew does not play", "name a team"});
        if (!std::isfinite(match.planned))
            faults.push_back({place_of(day, m), "it has no planned time", "give it one"});
    }
    for (std::size_t p = 0; p < day.pools.size(); ++p) {
        const Pool& pool = day.pools[p];
        const bool known = std::all_of(pool.teams.begin(), pool.teams.end(),
                                       [&](auto team) { return team < day.teams; }) &&
                           std::all_of(pool.matches.begin(), pool.matches.end(),
                                       [&](auto match) { return match < day.matches.size(); });
        if (!known)
            faults.push_back({fmt::format("pool {}", p), "a team or a match of it is not there",
                              "name teams and matches of the day"});
    }
}

void find_on_courts(const Day& day, Faults& faults) {
    std::vector<int> placed(day.matches.size(), 0);
    for (std::size_t c = 0; c < day.courts.size(); ++c)
        for (const MatchIndex match : day.courts[c])
            if (match < placed.size())
                ++placed[match];
            else
                faults.push_back({fmt::format("court {}", c + 1), "a match of it is not there",
                                  "name matches of the day"});
    for (std::size_t m = 0; m < placed.size(); ++m)
        if (placed[m] != 1)
            faults.push_back({place_of(day, m),
                              placed[m] == 0 ? "it has no court" : "it is on a court twice",
                              "give it one place on one court"});
}

/// Who waits for whom, among the matches that are not over.
class Waits {
  public:
    enum class People : bool { as_they_come, as_planned };

    Waits(const Day& day, People people)
        : day_{day}, next_(day.matches.size()), open_(next_.size(), 0) {
        for (const auto& court : day.courts) one_after_the_other(court);
        for (std::size_t m = 0; m < next_.size(); ++m)
            each_entrant(day.matches[m], [&](const Entrant& entrant) {
                comes_from(static_cast<MatchIndex>(m), entrant);
            });
        if (people == People::as_planned) same_people();
    }

    [[nodiscard]] std::optional<std::vector<MatchIndex>> order() {
        using Key = std::pair<Minute, MatchIndex>;
        std::priority_queue<Key, std::vector<Key>, std::greater<>> free;
        const auto release = [&](std::size_t m) {
            if (over(m)) return;
            // Whoever plays now is busy for all that waits, whenever that was planned.
            const Minute at = waits(day_, static_cast<MatchIndex>(m))
                                  ? day_.matches[m].planned
                                  : -std::numeric_limits<Minute>::infinity();
            free.push({at, static_cast<MatchIndex>(m)});
        };
        std::size_t expected = 0;
        for (std::size_t m = 0; m < next_.size(); ++m) {
            if (!over(m)) ++expected;
            if (open_[m] == 0) release(m);
        }
        std::vector<MatchIndex> order;
        while (!free.empty()) {
            const MatchIndex match = free.top().second;
            free.pop();
            order.push_back(match);
            for (const MatchIndex after : next_[match])
                if (--open_[after] == 0) release(after);
        }
        if (order.size() < expected) return std::nullopt;
        return order;
    }

  private:
    [[nodiscard]] bool over(std::size_t match) const {
        return std::holds_alternative<Over>(day_.matches[match].state);
    }

    /// What is over keeps nobody waiting, and what has begun does not wait.
    void add(MatchIndex first, MatchIndex then) {
        if (first == then || over(first)) return;
        if (!waits(day_, then)) return;
        next_[first].push_back(then);
        ++open_[then];
    }

    void one_after_the_other(std::vector<MatchIndex> matches) {
        matches.erase(std::remove_if(matches.begin(), matches.end(),
                                     [&](MatchIndex match) { return over(match); }),
                      matches.end());
        for (std::size_t i = 1; i < matches.size(); ++i) add(matches[i - 1], matches[i]);
    }

    void comes_from(MatchIndex match, const Entrant& entrant) {
        if (entrant.kind == Entrant::Kind::winner || entrant.kind == Entrant::Kind::loser)
            add(entrant.of, match);
        if (entrant.kind == Entrant::Kind::place)
            for (const MatchIndex of_pool : day_.pools[entrant.of].matches) add(of_pool, match);
    }

    /// Each known team and crew goes from match to match as they are planned.
    void same_people() {
        std::vector<std::vector<MatchIndex>> of(static_cast<std::size_t>(day_.teams) + day_.crews);
        for (std::size_t m = 0; m < next_.size(); ++m)
            each_entrant(day_.matches[m], [&](const Entrant& entrant) {
                const auto match = static_cast<MatchIndex>(m);
                if (entrant.kind == Entrant::Kind::team) of[entrant.of].push_back(match);
                if (entrant.kind == Entrant::Kind::crew)
                    of[static_cast<std::size_t>(day_.teams) + entrant.of].push_back(match);
            });
        for (auto& matches : of) {
            std::stable_sort(matches.begin(), matches.end(), [&](MatchIndex x, MatchIndex y) {
                return day_.matches[x].planned < day_.matches[y].planned;
            });
            one_after_the_other(matches);
        }
    }

    const Day& day_;
    std::vector<std::vector<MatchIndex>> next_;
    std::vector<std::uint32_t> open_;  ///< how many it waits for
};

}  // namespace

std::optional<std::vector<MatchIndex>> order_of_waiting(const Day& day) {
    if (auto order = Waits{day, Waits::People::as_planned}.order()) return order;
    return Waits{day, Waits::People::as_they_come}.order();
}

Faults faults_of(const Day& day) {
    Faults faults;
    find_sizes(day, faults);
    if (!faults.empty()) return faults;
    find_in_kinds(day, faults);
    find_in_matches(day, faults);
    find_on_courts(day, faults);
    if (!std::isfinite(day.now)) faults.push_back({"day", "it has no time", "say what time it is"});
    if (!positive(day.punctuality.mean_minutes) || !positive(day.punctuality.starts))
        faults.push_back({"day", "lateness is known by minutes and starts above 0",
                          "leave it at what it is without a value"});
    if (faults.empty() && !order_of_waiting(day))
        faults.push_back({"day", "matches wait for each other in a circle",
                          "put each match on its court after those that its teams come from"});
    return faults;
}

}  // namespace courthand::forecast
