#include "server/venue/match_shelf.h"

#include <utility>

namespace courthand::server::venue {

std::uint32_t MatchShelf::put(MatchView view) {
    const MatchId id = view.plan.key.match;
    const std::uint32_t court = view.plan.court;
    const auto [place, added] = matches_.try_emplace(id);
    const std::uint32_t before = added ? 0 : place->second.plan.court;
    if (before != court) leave_court(before, id);
    if (court != 0) courts_[court].insert(id);
    place->second = std::move(view);
    return before;
}

void MatchShelf::remove(MatchId match) {
    const auto found = matches_.find(match);
    if (found == matches_.end()) return;
    leave_court(found->second.plan.court, match);
    matches_.erase(found);
}

void MatchShelf::leave_court(std::uint32_t court, MatchId match) {
    const auto place = courts_.find(court);
    if (place == courts_.end()) return;
    place->second.erase(match);
    if (place->second.empty()) courts_.erase(place);
}

MatchView* MatchShelf::find(MatchId match) {
    const auto found = matches_.find(match);
    return found == matches_.end() ? nullptr : &found->second;
}

const MatchView* MatchShelf::find(MatchId match) const {
    const auto found = matches_.find(match);
    return found == matches_.end() ? nullptr : &found->second;
}

const MatchView* MatchShelf::current(std::uint32_t court) const {
    const auto place = courts_.find(court);
    if (place == courts_.end()) return nullptr;
    const MatchView* best = nullptr;
    for (const MatchId id : place->second) {
        const MatchView& view = matches_.at(id);
        if (view.plan.status == PlanStatus::cancelled) continue;
        if (!best || more_current(view, *best)) best = &view;
    }
    return best;
}

}  // namespace courthand::server::venue
