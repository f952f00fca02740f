#include "forecast/world.h"

#include <algorithm>
#include <tuple>

#include "courthand/draw/random.h"

namespace courthand::forecast {

/// The latest of all that a start waits for.
class World::Bound {
  public:
    void wait(Minute until, Cause cause, MatchIndex by) noexcept {
        if (until > plain_.at) plain_ = {until, cause, by};
    }
    void rest(Minute until, MatchIndex by) noexcept {
        if (until > rest_.at) rest_ = {until, Cause::rest, by};
    }
    /// A team that would keep all others waiting without any rest binds by its match.
    [[nodiscard]] Ready latest() const noexcept {
        if (rest_.at <= plain_.at) return plain_;
        const bool plays = plain_.cause == Cause::team && plain_.by == rest_.by;
        return {rest_.at, plays ? Cause::team : Cause::rest, rest_.by};
    }

  private:
    Ready plain_;
    Ready rest_;
};

World::World(const Day& day)
    : day_{&day},
      courts_(day.matches.size()),
      last_(day.courts.size(), Ready::nobody),
      busy_(static_cast<std::size_t>(day.teams) + day.crews),
      ended_(day.matches.size()) {
    for (std::size_t c = 0; c < day.courts.size(); ++c)
        for (const MatchIndex match : day.courts[c]) courts_[match] = static_cast<std::uint16_t>(c);
    for (const Pool& pool : day.pools) {
        pool_at_.push_back(places_.size());
        places_.resize(places_.size() + pool.teams.size(), unknown);
    }
}

void World::draw(std::uint64_t lot) noexcept {
    lot_ = draw::Random{lot}.next();
}

World::Person World::who(const Entrant& entrant) {
    switch (entrant.kind) {
        case Entrant::Kind::team:
            return entrant.of;
        case Entrant::Kind::crew:
            return static_cast<Person>(day_->teams + entrant.of);
        case Entrant::Kind::winner:
            return ended_[entrant.of].winner;
        case Entrant::Kind::loser:
            return ended_[entrant.of].loser;
        case Entrant::Kind::place:
            return at_place(entrant.of, entrant.place);
    }
    return unknown;
}

World::Person World::at_place(PoolIndex pool, std::uint16_t place) {
    const std::size_t at = pool_at_[pool] + place - 1;
    if (places_[at] == unknown) order_pool(pool);
    return places_[at];
}

void World::order_pool(PoolIndex pool) {
    const Pool& of = day_->pools[pool];
    for (const MatchIndex match : of.matches)
        if (ended_[match].at == never) return;
    using Key = std::tuple<int, std::uint64_t, Person>;  // fewer losses, the lot, the team
    std::vector<Key> keys;
    for (const std::uint16_t team : of.teams) {
        const auto won = std::count_if(of.matches.begin(), of.matches.end(),
                                       [&](auto match) { return ended_[match].winner == team; });
        keys.emplace_back(-static_cast<int>(won),
                          draw::Random{lot_ ^ draw::Random{team}.next()}.next(), team);
    }
    std::sort(keys.begin(), keys.end());
    for (std::size_t i = 0; i < keys.size(); ++i)
        places_[pool_at_[pool] + i] = std::get<2>(keys[i]);
}

void World::count_source(const Entrant& entrant, bool plays, Bound& bound) const {
    if (entrant.kind == Entrant::Kind::winner || entrant.kind == Entrant::Kind::loser)
        bound.wait(ended_[entrant.of].at, plays ? Cause::team : Cause::duty, entrant.of);
    if (entrant.kind == Entrant::Kind::place)
        for (const MatchIndex match : day_->pools[entrant.of].matches)
            bound.wait(ended_[match].at, Cause::sides, match);
}

void World::count_person(const Entrant& entrant, bool plays, double rest, Bound& bound) {
    const Person person = who(entrant);
    if (person == unknown) return;
    const Busy& busy = busy_[person];
    bound.wait(busy.played, plays ? Cause::team : Cause::duty, busy.played_in);
    bound.wait(busy.worked, Cause::duty, busy.worked_in);
    if (plays) bound.rest(busy.played + rest, busy.played_in);
}

Ready World::ready(MatchIndex match) {
    const DayMatch& here = day_->matches[match];
    const Kind& kind = day_->kinds[here.kind];
    Bound bound;
    if (!here.may_start_early)
        bound.wait(here.planned - kind.warm_up, Cause::not_before, Ready::nobody);
    if (const MatchIndex before = last_[courts_[match]]; before != Ready::nobody)
        bound.wait(ended_[before].at, Cause::court, before);
    for (const Entrant& side : here.sides) {
        count_source(side, true, bound);
        count_person(side, true, kind.rest, bound);
    }
    for (const Entrant& worker : here.workers) {
        count_source(worker, false, bound);
        count_person(worker, false, 0, bound);
    }
    return bound.latest();
}

void World::play(MatchIndex match, Minute end, Winner winner) {
    const DayMatch& here = day_->matches[match];
    const Person first = who(here.sides[0]);
    const Person second = who(here.sides[1]);
    // Of a level match nobody goes on: who does is for the desk to say.
    if (winner == Winner::nobody)
        ended_[match] = {end, unknown, unknown};
    else
        ended_[match] = winner == Winner::A ? Ended{end, first, second} : Ended{end, second, first};
    last_[courts_[match]] = match;
    for (const Person person : {first, second})
        if (person != unknown) {
            busy_[person].played = end;
            busy_[person].played_in = match;
        }
    for (const Entrant& worker : here.workers)
        if (const Person person = who(worker); person != unknown) {
            busy_[person].worked = end;
            busy_[person].worked_in = match;
        }
}

}  // namespace courthand::forecast
