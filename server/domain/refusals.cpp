#include "server/domain/refusals.h"

namespace courthand::server {

namespace {

/// A later entry that is refused for the same cause is no news: the first must be helped.
bool is_news(const Refusals::Refusal& kept, const Refusals::Refusal& now) {
    if (kept.cause != now.cause) return true;
    if (kept.number == now.number) return kept.entry != now.entry || kept.hash != now.hash;
    return now.number != 0 && now.number < kept.number;
}

}  // namespace

void Refusals::refused(const Refusal& refusal) {
    const std::scoped_lock lock{mutex_};
    const Place place{refusal.match, refusal.device};
    if (const auto kept = refusals_.find(place); kept != refusals_.end()) {
        if (!is_news(kept->second, refusal)) return;
        const ServerTime since = kept->second.since;
        kept->second = refusal;
        kept->second.since = since;
        untold_[place] = kept->second;
        return;
    }
    make_room_for(refusal.device);
    if (refusals_.size() >= most) return;
    refusals_.emplace(place, refusal);
    untold_[place] = refusal;
}

void Refusals::make_room_for(DeviceId device) {
    std::size_t count = 0;
    auto oldest = refusals_.end();
    for (auto row = refusals_.begin(); row != refusals_.end(); ++row) {
        if (row->first.second != device) continue;
        ++count;
        if (oldest == refusals_.end() || row->second.since < oldest->second.since) oldest = row;
    }
    if (count < most_of_a_device) return;
    untold_[oldest->first] = std::nullopt;
    refusals_.erase(oldest);
}

void Refusals::taken(MatchId match, DeviceId device) {
    const std::scoped_lock lock{mutex_};
    if (refusals_.erase({match, device}) > 0) untold_[{match, device}] = std::nullopt;
}

std::vector<Refusals::Refusal> Refusals::now() const {
    const std::scoped_lock lock{mutex_};
    std::vector<Refusal> all;
    for (const auto& [place, refusal] : refusals_) all.push_back(refusal);
    return all;
}

Refusals::Changes Refusals::untold() const {
    const std::scoped_lock lock{mutex_};
    return untold_;
}

void Refusals::learn(const Changes& told, const std::vector<Refusal>& all) {
    const std::scoped_lock lock{mutex_};
    for (const auto& [place, change] : told) {
        const auto kept = untold_.find(place);
        if (kept != untold_.end() && kept->second == change) untold_.erase(kept);
    }
    refusals_.clear();
    for (const Refusal& refusal : all)
        refusals_.emplace(Place{refusal.match, refusal.device}, refusal);
    for (const auto& [place, change] : untold_) {
        refusals_.erase(place);
        if (change) refusals_.emplace(place, *change);
    }
}

}  // namespace courthand::server
