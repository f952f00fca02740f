#include "server/planner/neighbourhood.h"

#include <algorithm>

namespace courthand::server::planner {

using plan::MatchIndex;
using plan::Minute;
using plan::Plan;

Neighbourhood::Neighbourhood(const plan::Relations& relations)
    : relations_{relations}, is_chosen_(relations.task.matches.size(), false) {
    const plan::PlanTask& task = relations.task;
    pools_.resize(task.pools.size());
    for (std::size_t m = 0; m < task.matches.size(); ++m) {
        if (task.matches[m].pinned) continue;
        movable_.push_back(static_cast<MatchIndex>(m));
        if (task.matches[m].pool) pools_[*task.matches[m].pool].push_back(movable_.back());
    }
    std::erase_if(pools_, [](const Matches& pool) { return pool.empty(); });
}

void Neighbourhood::add(MatchIndex match) {
    if (is_chosen_[match] || relations_.task.matches[match].pinned) return;
    is_chosen_[match] = true;
    chosen_.push_back(match);
}

MatchIndex Neighbourhood::any(draw::Random& random) const {
    return movable_[random.below(movable_.size())];
}

/// Whole pools, as many as fit; they may change courts with each other.
void Neighbourhood::add_pools(draw::Random& random, std::size_t size) {
    for (int tries = 0; tries < 8 && chosen_.size() < size; ++tries) {
        const Matches& pool = pools_[random.below(pools_.size())];
        if (chosen_.size() + pool.size() > size + 2 && !chosen_.empty()) continue;
        for (const MatchIndex match : pool) add(match);
    }
}

/// What begins about the same time.
void Neighbourhood::add_time(const Plan& plan, draw::Random& random, std::size_t size) {
    const auto& centre = plan.places[chosen_.empty() ? any(random) : chosen_.front()];
    if (!centre) return;
    Matches near = movable_;
    draw::shuffle(near, random);
    const auto away = [&](MatchIndex match) {
        const auto& place = plan.places[match];
        return place ? std::abs(place->start - centre->start) / 60 : plan::never;
    };
    std::stable_sort(near.begin(), near.end(),
                     [&](MatchIndex a, MatchIndex b) { return away(a) < away(b); });
    for (const MatchIndex match : near)
        if (chosen_.size() < size) add(match);
}

/// What follows each other on two courts.
void Neighbourhood::add_courts(const Plan& plan, draw::Random& random, std::size_t size) {
    const auto courts = relations_.task.courts.size();
    const auto one = random.below(courts);
    const auto two = random.below(courts);
    const auto& centre = plan.places[chosen_.empty() ? any(random) : chosen_.front()];
    Matches there;
    for (const MatchIndex match : movable_)
        if (const auto& place = plan.places[match];
            place && (place->court == one || place->court == two ||
                      (centre && place->court == centre->court)))
            there.push_back(match);
    const Minute about = centre ? centre->start : 0;
    std::stable_sort(there.begin(), there.end(), [&](MatchIndex a, MatchIndex b) {
        return std::abs(plan.places[a]->start - about) < std::abs(plan.places[b]->start - about);
    });
    for (const MatchIndex match : there)
        if (chosen_.size() < size) add(match);
}

/// What ends a day, with what it waits for.
void Neighbourhood::add_last(const Plan& plan, draw::Random& random, std::size_t size) {
    Matches last = movable_;
    const auto end = [&](MatchIndex match) {
        return plan.places[match]
                   ? plan.places[match]->start + relations_.task.matches[match].duration
                   : 0;
    };
    const auto day = random.below(relations_.days.size());
    std::erase_if(last, [&](MatchIndex match) {
        return plan.places[match] && relations_.day_of(plan.places[match]->start) != day;
    });
    std::stable_sort(last.begin(), last.end(),
                     [&](MatchIndex a, MatchIndex b) { return end(a) > end(b); });
    for (const MatchIndex match : last) {
        if (chosen_.size() >= size / 2) break;
        add(match);
    }
    add_related(random, size);
}

/// From match to match by those who must be at both, and by what waits for what.
void Neighbourhood::add_related(draw::Random& random, std::size_t size) {
    if (chosen_.empty()) add(any(random));
    for (std::size_t tries = 0; tries < 6 * size && chosen_.size() < size; ++tries) {
        const MatchIndex from = chosen_[random.below(chosen_.size())];
        const auto& before = relations_.before[from];
        const auto& after = relations_.after[from];
        const auto& who = relations_.of_match[from];
        const auto which = random.below(before.size() + after.size() + who.size());
        if (which < before.size()) {
            add(before[which].match);
        } else if (which < before.size() + after.size()) {
            add(after[which - before.size()].match);
        } else {
            const auto& all = relations_.of_party[who[which - before.size() - after.size()].party];
            add(all[random.below(all.size())].match);
        }
    }
}

std::vector<MatchIndex> Neighbourhood::choose(const Plan& plan, std::size_t size,
                                              draw::Random& random, const MatchIndex* must) {
    for (const MatchIndex match : chosen_) is_chosen_[match] = false;
    chosen_.clear();
    if (movable_.empty()) return {};
    if (must != nullptr) add(*must);
    switch (random.below(6)) {
        case 0:
            if (!pools_.empty()) add_pools(random, size);
            break;
        case 1:
            add_time(plan, random, size);
            break;
        case 2:
            add_courts(plan, random, size);
            break;
        case 3:
            add_last(plan, random, size);
            break;
        case 4:
            add_related(random, size);
            break;
        default:
            add_related(random, size / 2);
            add_time(plan, random, size);
            break;
    }
    if (chosen_.empty()) add_related(random, size);
    std::sort(chosen_.begin(), chosen_.end());
    return chosen_;
}

}  // namespace courthand::server::planner
