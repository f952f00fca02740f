#include "server/domain/match_keeper.h"

#include <algorithm>
#include <mutex>

namespace courthand::server {

namespace {

/// The order on a court: in play, then planned time, then number; finished ones do not count.
bool comes_before(const LiveMatch& a, const LiveMatch& b) {
    const bool a_began = a.head.last > 0;
    const bool b_began = b.head.last > 0;
    if (a_began != b_began) return a_began;
    if (a_began && a.last_entry_at != b.last_entry_at) return a.last_entry_at > b.last_entry_at;
    if (a.plan.scheduled_at && b.plan.scheduled_at && *a.plan.scheduled_at != *b.plan.scheduled_at)
        return *a.plan.scheduled_at < *b.plan.scheduled_at;
    if (a.plan.number != b.plan.number) return a.plan.number < b.plan.number;
    return a.plan.key < b.plan.key;
}

NewEntry entry_of(const FeedItem& item) {
    return {item.number, item.hash, item.stored_at, item.bytes};
}

}  // namespace

MatchKeeper::MatchKeeper() = default;
MatchKeeper::~MatchKeeper() = default;

void MatchKeeper::begin_anew() {
    coming_.clear();
    for (MatchObserver* observer : observers_) observer->on_begun_anew();
}

void MatchKeeper::add(std::unique_ptr<FoldedMatch> match) {
    const LiveMatch& live = match->live();
    const EntryNumber first = live.head.last == 0 ? 0 : 1;
    tell_changed({MatchChanged::Cause::rebuilt, live, first, live.head.last, {}, 0});
    const MatchId id = live.key.match;
    coming_[id] = std::move(match);
}

void MatchKeeper::rebuilt(FeedPosition position) {
    {
        const std::unique_lock lock{mutex_};
        matches_.swap(coming_);
        position_ = position;
    }
    coming_.clear();
    moved_.notify_all();
    for (MatchObserver* observer : observers_) observer->on_rebuilt();
}

void MatchKeeper::load(const StoredMatch& match, FeedPosition position) {
    bool changed = false;
    const LiveMatch* live = nullptr;
    {
        const std::unique_lock lock{mutex_};
        auto& kept = matches_[match.plan.key.match];
        changed = kept == nullptr;
        if (changed)
            kept = std::make_unique<FoldedMatch>(match);
        else
            changed = kept->describe(match);
        live = &kept->live();
    }
    if (changed) tell_changed({MatchChanged::Cause::described, *live, 0, 0, {}, position});
}

bool MatchKeeper::needs_load(const FeedItem& item) const {
    if (item.match.nil()) return false;
    const std::shared_lock lock{mutex_};
    const FoldedMatch* const match = find(item.match);
    if (match == nullptr || item.kind == FeedItem::Kind::described) return true;
    return item.kind == FeedItem::Kind::entry && match->live().head.epoch < item.epoch;
}

MatchKeeper::Taken MatchKeeper::take(const FeedItem& item) {
    FoldedMatch* match = nullptr;
    FoldedMatch::Appended appended;
    {
        const std::unique_lock lock{mutex_};
        match = find(item.match);
        if (match != nullptr && item.kind == FeedItem::Kind::entry) {
            if (item.number != match->live().head.last + 1) return Taken::out_of_order;
            appended = match->append(entry_of(item));
        }
        if (match != nullptr && item.kind == FeedItem::Kind::branch) match->add_branch(item.branch);
        position_ = item.position;
    }
    moved_.notify_all();
    tell_taken(item, match != nullptr ? &match->live() : nullptr, appended);
    return Taken::taken;
}

void MatchKeeper::pass_over(const FeedItem& item) {
    {
        const std::unique_lock lock{mutex_};
        position_ = item.position;
    }
    moved_.notify_all();
}

// Outside the lock: only this thread changes matches, so what it reads stands still.
void MatchKeeper::tell_taken(const FeedItem& item, const LiveMatch* live,
                             const FoldedMatch::Appended& appended) {
    using Kind = FeedItem::Kind;
    if (item.kind == Kind::ruling || item.kind == Kind::venue)
        for (MatchObserver* observer : observers_) observer->on_notice(item);
    if (live == nullptr) return;
    if (item.kind == Kind::entry) {
        const auto cause =
            appended.corrected ? MatchChanged::Cause::corrected : MatchChanged::Cause::appended;
        tell_changed({cause, *live, item.number, item.number, appended.raised, item.position});
    }
    if (item.kind == Kind::branch)
        for (MatchObserver* observer : observers_)
            observer->on_branch_stored({*live, item.branch, item.device, item.epoch, item.number,
                                        item.stored_at, item.position});
}

void MatchKeeper::seen(const DeviceSeen& device) {
    for (MatchObserver* observer : observers_) observer->on_device_seen(device);
}

void MatchKeeper::tell_changed(const MatchChanged& change) {
    for (MatchObserver* observer : observers_) observer->on_match_changed(change);
}

FoldedMatch* MatchKeeper::find(MatchId match) const {
    const auto found = matches_.find(match);
    return found == matches_.end() ? nullptr : found->second.get();
}

FeedPosition MatchKeeper::position() const {
    const std::shared_lock lock{mutex_};
    return position_;
}

bool MatchKeeper::wait_for(FeedPosition position, std::chrono::milliseconds patience) const {
    std::shared_lock lock{mutex_};
    return moved_.wait_for(lock, patience, [&] { return position_ >= position; });
}

bool MatchKeeper::read(MatchId match, const Reader& reader) const {
    const std::shared_lock lock{mutex_};
    const FoldedMatch* const found = find(match);
    if (found == nullptr) return false;
    reader(found->live());
    return true;
}

FeedPosition MatchKeeper::read_at(const AllReader& reader) const {
    const std::shared_lock lock{mutex_};
    std::vector<const LiveMatch*> all;
    all.reserve(matches_.size());
    for (const auto& [id, match] : matches_) all.push_back(&match->live());
    std::sort(all.begin(), all.end(), [](const LiveMatch* a, const LiveMatch* b) {
        return a->plan.number != b->plan.number ? a->plan.number < b->plan.number : a->key < b->key;
    });
    reader(all);
    return position_;
}

FeedPosition MatchKeeper::read_one(MatchId match, const AllReader& reader) const {
    const std::shared_lock lock{mutex_};
    const FoldedMatch* const found = find(match);
    const LiveMatch* const live = found == nullptr ? nullptr : &found->live();
    reader({&live, live == nullptr ? 0U : 1U});
    return position_;
}

FeedPosition MatchKeeper::read_court(std::uint32_t court, const AllReader& reader) const {
    const std::shared_lock lock{mutex_};
    std::vector<const LiveMatch*> here;
    for (const auto& [id, match] : matches_) {
        const LiveMatch& live = match->live();
        if (live.plan.court == court && live.plan.status != PlanStatus::cancelled &&
            live.state.set.stage != Stage::match_over)
            here.push_back(&live);
    }
    std::sort(here.begin(), here.end(),
              [](const LiveMatch* a, const LiveMatch* b) { return comes_before(*a, *b); });
    reader(here);
    return position_;
}

std::vector<MatchId> MatchKeeper::on_court(std::uint32_t court) const {
    std::vector<MatchId> ids;
    (void)read_court(court, [&](std::span<const LiveMatch* const> here) {
        for (const LiveMatch* match : here) ids.push_back(match->key.match);
    });
    return ids;
}

}  // namespace courthand::server
