#include "tests/bench/simulated_day.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "courthand/match/set_end.h"

namespace courthand::forecast {
namespace {

constexpr std::uint16_t pools = 8;
constexpr std::uint16_t teams_each = 4;
constexpr std::uint16_t crews = 8;

/// The order of play of a pool of four with the team that works, a common one.
constexpr std::uint16_t pool_order[6][3] = {{0, 2, 1}, {1, 3, 0}, {0, 3, 2},
                                            {1, 2, 3}, {2, 3, 0}, {0, 1, 3}};

class Planner {
  public:
    Planner() {
        day_.teams = pools * teams_each;
        day_.crews = crews;
        day_.courts.resize(pools);
        Kind& kind = day_.kinds.emplace_back();
        kind.format.sets = 3;
        kind.rest = 5;  // in a pool of four on one court somebody always plays twice in a row
        for (std::uint16_t pool = 0; pool < pools; ++pool) add_pool(pool);
        for (std::uint16_t place = 1; place <= 2; ++place) add_knock_out(place);
    }
    [[nodiscard]] Day day() const { return day_; }

  private:
    MatchIndex add(std::uint16_t court, std::size_t slot, Entrant first, Entrant second,
                   Entrant workers) {
        DayMatch match;
        const auto index = static_cast<MatchIndex>(day_.matches.size());
        match.name = "M" + std::to_string(index + 1);
        match.sides = {first, second};
        match.workers = {workers};
        match.planned = day_begins + planned_slot * static_cast<double>(slot);
        day_.matches.push_back(std::move(match));
        day_.courts[court].push_back(index);
        return index;
    }

    void add_pool(std::uint16_t pool) {
        const auto team = [&](std::uint16_t number) {
            return Entrant{Entrant::Kind::team,
                           static_cast<std::uint16_t>(pool * teams_each + number), 0};
        };
        Pool& of = day_.pools.emplace_back();
        for (std::uint16_t number = 0; number < teams_each; ++number)
            of.teams.push_back(team(number).of);
        for (std::size_t slot = 0; slot < std::size(pool_order); ++slot) {
            const auto& [first, second, workers] = pool_order[slot];
            of.matches.push_back(add(pool, slot, team(first), team(second), team(workers)));
        }
    }

    /// Quarter-finals, half-finals and final on four courts.
    void add_knock_out(std::uint16_t place) {
        const auto court = [&](std::size_t i) {
            return static_cast<std::uint16_t>((place - 1) * 4 + static_cast<int>(i));
        };
        const auto crew = [&](std::size_t i) { return Entrant{Entrant::Kind::crew, court(i), 0}; };
        const auto first_of = [&](std::size_t pool) {
            return Entrant{Entrant::Kind::place, static_cast<PoolIndex>(pool), place};
        };
        std::vector<Entrant> winners;
        for (std::size_t i = 0; i < 4; ++i)
            winners.push_back({Entrant::Kind::winner,
                               add(court(i), 6, first_of(i), first_of(7 - i), crew(i)), 0});
        for (std::size_t round = 0; winners.size() > 1; ++round) {
            std::vector<Entrant> next;
            for (std::size_t i = 0; i + 1 < winners.size(); i += 2)
                next.push_back({Entrant::Kind::winner,
                                add(court(i), 7 + round, winners[i], winners[i + 1], crew(i)), 0});
            winners = next;
        }
    }

    Day day_;
};

/// Plays the plan in the order of its times, one match after the other.
class Play {
  public:
    Play(std::uint64_t seed, const Habits& habits) : random_{seed}, habits_{habits} {}

    SimulatedDay run() {
        day_.plan = Planner{}.day();
        day_.pace = habits_.pace + habits_.pace_of_days * (even() + even() + even() - 1.5) * 2;
        manners_ = 0.4 + 1.2 * even();
        for (std::size_t t = 0; t < day_.plan.teams; ++t) strength_.push_back(normal());
        day_.matches.resize(day_.plan.matches.size());
        std::vector<MatchIndex> order(day_.matches.size());
        for (std::size_t m = 0; m < order.size(); ++m) {
            order[m] = static_cast<MatchIndex>(m);
            day_.planned_end.push_back(day_.plan.matches[m].planned + planned_slot -
                                       day_.plan.kinds[0].warm_up);
        }
        std::stable_sort(order.begin(), order.end(), [&](MatchIndex x, MatchIndex y) {
            return day_.plan.matches[x].planned < day_.plan.matches[y].planned;
        });
        for (const MatchIndex match : order) play(match);
        return std::move(day_);
    }

  private:
    double even() { return std::uniform_real_distribution<>{}(random_); }
    double normal() { return std::normal_distribution<>{}(random_); }
    double exponential(double mean) { return -mean * std::log(1 - even()); }

    /// Whom a source stands for: a number that is unique among teams and crews.
    int who(const Entrant& entrant) {
        if (entrant.kind == Entrant::Kind::team) return entrant.of;
        if (entrant.kind == Entrant::Kind::crew) return 1000 + entrant.of;
        if (entrant.kind == Entrant::Kind::place) return table(entrant.of)[entrant.place - 1U];
        const bool first = (day_.matches[entrant.of].winner == Winner::A) ==
                           (entrant.kind == Entrant::Kind::winner);
        return sides_[entrant.of][first ? 0 : 1];
    }

    std::vector<int> table(PoolIndex pool) {
        std::map<int, double> won;
        for (const MatchIndex match : day_.plan.pools[pool].matches)
            won[sides_[match][day_.matches[match].winner == Winner::A ? 0 : 1]] += 1;
        std::vector<int> teams(day_.plan.pools[pool].teams.begin(),
                               day_.plan.pools[pool].teams.end());
        std::stable_sort(teams.begin(), teams.end(), [&](int x, int y) { return won[x] > won[y]; });
        return teams;
    }

    Minute earliest(MatchIndex match) {
        const DayMatch& planned = day_.plan.matches[match];
        const Kind& kind = day_.plan.kinds[planned.kind];
        Minute begin = planned.planned;
        const auto wait = [&](Minute until) { begin = std::max(begin, until + kind.warm_up); };
        wait(court_free_[court_of(match)]);
        for (const Entrant& side : planned.sides) {
            const int team = who(side);
            if (played_.contains(team)) wait(played_[team] + kind.rest);
            wait(worked_[team]);
            if (side.kind == Entrant::Kind::place)
                for (const MatchIndex of : day_.plan.pools[side.of].matches)
                    wait(day_.matches[of].ended);
        }
        for (const Entrant& worker : planned.workers)
            wait(std::max(played_[who(worker)], worked_[who(worker)]));
        return begin;
    }

    std::size_t court_of(MatchIndex match) const {
        for (std::size_t c = 0; c < day_.plan.courts.size(); ++c) {
            const auto& court = day_.plan.courts[c];
            if (std::find(court.begin(), court.end(), match) != court.end()) return c;
        }
        return 0;
    }

    void play(MatchIndex match) {
        TrueMatch& here = day_.matches[match];
        here.began = earliest(match) + manners_ * (5 * even());
        if (even() < habits_.late_crew * manners_) here.began += exponential(8);
        sides_[match] = {who(day_.plan.matches[match].sides[0]),
                         who(day_.plan.matches[match].sides[1])};
        play_rallies(match, here);
        court_free_[court_of(match)] = here.ended;
        for (const int team : sides_[match]) played_[team] = here.ended;
        for (const Entrant& worker : day_.plan.matches[match].workers)
            worked_[who(worker)] = here.ended;
    }

    void play_rallies(MatchIndex match, TrueMatch& here) {
        const MatchFormat& format = day_.plan.kinds[0].format;
        const auto& [first, second] = sides_[match];
        const double better = habits_.strength * (strength_[static_cast<std::size_t>(first)] -
                                                  strength_[static_cast<std::size_t>(second)]);
        const double pace = day_.pace * std::exp(.08 * normal());
        Minute clock = here.began;
        PerTeam<std::uint8_t> sets;
        here.served_first = even() < .5 ? Team::A : Team::B;
        Team server = here.served_first;
        while (!match_over(format, sets)) {
            const auto number = static_cast<std::uint8_t>(sets.a + sets.b + 1);
            PerTeam<int> points;
            for (bool over = false; !over;) {
                const double p = .5 + better + (server == Team::A ? -1 : 1) * habits_.serve;
                const Team winner = even() < p ? Team::A : Team::B;
                clock += seconds(pace) / 60;
                here.rallies.push_back({winner, clock});
                server = winner;
                ++points[winner];
                over = wins_set(format, number, points[winner], points[opponent(winner)]);
                if (over) ++sets[winner];
                if (!over && even() < habits_.injury) clock += 1 + exponential(5);
            }
            if (!match_over(format, sets)) clock += 3 + .7 * even();
            server = even() < .5 ? Team::A : Team::B;
        }
        here.ended = clock;
        here.winner = sets.a > sets.b ? Winner::A : Winner::B;
    }

    /// Many short rallies and few long ones, and now and then a time-out. `pace` on average.
    double seconds(double pace) {
        const double rest = pace - 40 * habits_.time_out;
        return rest * (.55 + exponential(.45)) + (even() < habits_.time_out ? 40 : 0);
    }

    std::mt19937_64 random_;
    Habits habits_;
    SimulatedDay day_;
    double manners_ = 1;
    std::vector<double> strength_;
    std::map<MatchIndex, std::array<int, 2>> sides_;
    std::map<std::size_t, Minute> court_free_;
    std::map<int, Minute> played_;
    std::map<int, Minute> worked_;
};

/// The match as it stood: what a table would have told.
Live live_at(const MatchFormat& format, const TrueMatch& truth, Minute now) {
    Live live;
    live.began = truth.began;
    live.score = match_start(format, truth.served_first);
    Minute set_began = truth.began;
    Minute last = truth.began;
    for (const PlayedRally& rally : truth.rallies) {
        if (rally.ended > now) break;
        // The first rally of a set: its interval is not play.
        if (live.score.set.a + live.score.set.b == 0 && live.played.rallies > 0) {
            live.played.seconds += 60 * (last - set_began);
            set_began = last + 3;
        }
        last = rally.ended;
        live.played.rallies += 1;
        ++live.rallies_won[rally.winner];
        (rally.winner == Team::A ? live.score.set.a : live.score.set.b) += 1;
        live.score.set.server = rally.winner;
        const auto number = static_cast<std::uint8_t>(live.score.sets.a + live.score.sets.b + 1);
        const int own = rally.winner == Team::A ? live.score.set.a : live.score.set.b;
        const int others = rally.winner == Team::A ? live.score.set.b : live.score.set.a;
        if (wins_set(format, number, own, others)) {
            ++live.score.sets[rally.winner];
            live.score.set = set_start(format, opponent(live.score.served_first));
            live.score.served_first = live.score.set.server;
        }
    }
    live.played.seconds += 60 * (last - set_began);
    const bool between = live.score.set.a + live.score.set.b == 0 && live.played.rallies > 0;
    if (between) live.interval_left = std::max(0.0, last + 3 - now);
    return live;
}

}  // namespace

Day SimulatedDay::seen_at(Minute now) const {
    Day day = plan;
    day.now = now;
    for (std::size_t m = 0; m < matches.size(); ++m) {
        const TrueMatch& truth = matches[m];
        if (truth.began > now) continue;
        const MatchFormat& format = day.kinds[day.matches[m].kind].format;
        const Live live = live_at(format, truth, now);
        if (truth.ended > now)
            day.matches[m].state = live;
        else
            day.matches[m].state = Over{truth.began, truth.ended, truth.winner, live.played};
    }
    return day;
}

SimulatedDay simulated_day(std::uint64_t seed, const Habits& habits) {
    return Play{seed, habits}.run();
}

}  // namespace courthand::forecast
