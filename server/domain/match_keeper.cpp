#include "server/domain/match_keeper.h"

#include <algorithm>
#include <mutex>
#include <utility>

#include "server/domain/fault_log.h"

namespace courthand::server {

namespace {

/// The order on a court: in play, those of the desk before one that a table opened by itself (a
/// fenced tablet that goes on with nobody's consent does that), the one with the latest entry; then
/// planned time, then number. Finished ones do not count.
bool comes_before(const LiveMatch& a, const LiveMatch& b) {
    const bool a_began = a.head.last > 0;
    const bool b_began = b.head.last > 0;
    if (a_began != b_began) return a_began;
    if (a_began && a.plan.opened_at_table != b.plan.opened_at_table) return b.plan.opened_at_table;
    if (a_began && a.last_entry_at != b.last_entry_at) return a.last_entry_at > b.last_entry_at;
    if (a.plan.scheduled_at && b.plan.scheduled_at && *a.plan.scheduled_at != *b.plan.scheduled_at)
        return *a.plan.scheduled_at < *b.plan.scheduled_at;
    if (a.plan.number != b.plan.number) return a.plan.number < b.plan.number;
    return a.plan.key < b.plan.key;
}

NewEntry entry_of(const FeedItem& item) {
    return {item.number, item.hash, item.stored_at, item.bytes, item.read};
}

}  // namespace

MatchKeeper::MatchKeeper() = default;
MatchKeeper::~MatchKeeper() = default;

void MatchKeeper::begin_anew() {
    coming_.clear();
    awake_.clear();
    untold_.clear();
    building_ = true;
    for (MatchObserver* observer : observers_) observer->on_begun_anew();
}

void MatchKeeper::add(std::unique_ptr<FoldedMatch> match, const SnapshotParts& parts) {
    const LiveMatch& live = match->live();
    const MatchId id = live.key.match;
    const EntryNumber first = live.head.last == 0 ? 0 : 1;
    MatchChanged change{MatchChanged::Cause::rebuilt, live, first, live.head.last, {}, 0};
    Place& place = coming_[id];
    if (match->rests())
        place.snapshot = live.head.hash;
    else if (live.head.last > 0)
        awake_.insert(id);
    place.touched = std::chrono::steady_clock::now();
    place.match = std::move(match);
    tell_observers(id, [&](MatchObserver& observer) {
        const auto part = parts.find(std::string{observer.snapshot_name()});
        change.snapshot_part = part == parts.end() ? std::string_view{} : part->second;
        observer.on_match_changed(change);
    });
}

void MatchKeeper::rebuilt(FeedPosition position) {
    {
        const std::unique_lock lock{mutex_};
        matches_.swap(coming_);
        position_ = position;
    }
    building_ = false;
    coming_.clear();
    moved_.notify_all();
    for (MatchObserver* observer : observers_) observer->on_rebuilt();
}

void MatchKeeper::load(const StoredMatch& match, FeedPosition position) {
    bool changed = false;
    const LiveMatch* live = nullptr;
    {
        const std::unique_lock lock{mutex_};
        auto& kept = matches_[match.plan.key.match].match;
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
            const LiveMatch& live = match->live();
            const bool follows = item.number == live.head.last + 1;
            // One that still rests has a hole in its stored record: it could not be read back.
            const bool fits = follows && !match->rests();
            if (!fits && live.unreadable.empty()) return Taken::out_of_order;
            if (fits) appended = match->append(entry_of(item));
            matches_[item.match].touched = std::chrono::steady_clock::now();
        }
        if (match != nullptr && item.kind == FeedItem::Kind::branch) match->add_branch(item.branch);
        position_ = item.position;
    }
    moved_.notify_all();
    const bool is_entry = item.kind == FeedItem::Kind::entry;
    if (match != nullptr && is_entry && !match->rests()) awake_.insert(item.match);
    if (appended.threw) (void)stumbled(item.match);
    if (match != nullptr && is_entry) note_untold(item, std::move(appended));
    if (!is_entry) tell_of_item(item, match != nullptr ? &match->live() : nullptr);
    return Taken::taken;
}

void MatchKeeper::give_up(const FeedItem& item) {
    FoldedMatch* match = nullptr;
    {
        const std::unique_lock lock{mutex_};
        match = find(item.match);
        if (match != nullptr) match->give_up_at(match->live().head.last + 1);
        position_ = item.position;
    }
    moved_.notify_all();
    if (match != nullptr)
        tell_changed({MatchChanged::Cause::described, match->live(), 0, 0, {}, item.position});
}

void MatchKeeper::note_untold(const FeedItem& item, FoldedMatch::Appended appended) {
    Untold& untold = untold_[item.match];
    if (untold.first == 0) untold.first = item.number;
    untold.last = item.number;
    untold.corrected |= appended.corrected;
    untold.position = item.position;
    if (untold.raised.empty())
        untold.raised = std::move(appended.raised);
    else
        untold.raised.insert(untold.raised.end(), appended.raised.begin(), appended.raised.end());
}

// Outside the lock: only this thread changes matches, so what it reads stands still.
void MatchKeeper::tell() {
    for (const auto& [id, untold] : std::exchange(untold_, {})) {
        const auto cause =
            untold.corrected ? MatchChanged::Cause::corrected : MatchChanged::Cause::appended;
        const MatchChanged change{cause,       find(id)->live(), untold.first,
                                  untold.last, untold.raised,    untold.position};
        tell_observers(id, [&](MatchObserver& observer) { observer.on_match_changed(change); });
    }
}

void MatchKeeper::tell_of_item(const FeedItem& item, const LiveMatch* live) {
    using Kind = FeedItem::Kind;
    tell();
    if (item.kind == Kind::ruling || item.kind == Kind::venue)
        tell_observers(item.match, [&](MatchObserver& observer) { observer.on_notice(item); });
    if (live != nullptr && item.kind == Kind::branch)
        tell_observers(item.match, [&](MatchObserver& observer) {
            observer.on_branch_stored({*live, item.branch, item.device, item.epoch, item.number,
                                       item.stored_at, item.position});
        });
}

template <class Tell>
void MatchKeeper::tell_observers(MatchId match, const Tell& tell) {
    for (MatchObserver* observer : observers_) {
        try {
            tell(*observer);
        } catch (...) {
            if (!stumbles_.contains(match)) log_current_exception("telling of a match");
            if (stumbled(match)) give_up_by_own_fault(match);
        }
    }
}

bool MatchKeeper::stumbled(MatchId match) {
    const bool again = ++stumbles_[match] > 1;
    if (!again) wants_anew_ = true;
    return again;
}

// What it throws now is known already.
void MatchKeeper::give_up_by_own_fault(MatchId match) {
    Place* const place = place_of(match);
    if (place == nullptr || !place->match->live().unreadable.empty()) return;
    log_fault("telling of a match", "match " + to_text(match) + " is given up");
    {
        const std::unique_lock lock{mutex_};
        place->match->give_up_by_own_fault();
    }
    tell_observers(match, [&](MatchObserver& observer) {
        observer.on_match_changed(
            {MatchChanged::Cause::described, place->match->live(), 0, 0, {}, position_});
    });
}

std::vector<MatchId> MatchKeeper::due_to_rest(Steady now, std::size_t most) const {
    std::vector<MatchId> due;
    for (const MatchId id : awake_) {
        if (due.size() == most) break;
        if (!is_sound(id)) continue;
        const Place& place = *place_of(id);
        const bool over = place.match->live().state.set.stage == Stage::match_over;
        const auto quiet = over ? over_rests_after : any_rests_after;
        if (now - place.touched >= quiet) due.push_back(id);
    }
    return due;
}

std::vector<MatchId> MatchKeeper::without_snapshot() const {
    std::vector<MatchId> without;
    for (const MatchId id : awake_) {
        if (!is_sound(id)) continue;
        const Place& place = *place_of(id);
        if (place.snapshot != place.match->live().head.hash) without.push_back(id);
    }
    return without;
}

bool MatchKeeper::is_sound(MatchId match) const {
    const Place* const place = place_of(match);
    return !stumbles_.contains(match) && place != nullptr && !place->match->met_own_fault();
}

std::optional<MatchSnapshot> MatchKeeper::snapshot_of(MatchId match) const {
    const Place* const place = place_of(match);
    if (place == nullptr) return std::nullopt;
    SnapshotParts parts;
    for (MatchObserver* observer : observers_)
        if (const auto name = observer->snapshot_name(); !name.empty())
            parts[std::string{name}] = observer->snapshot_part(match);
    return server::snapshot_of(place->match->live(), parts);
}

void MatchKeeper::kept(const MatchSnapshot& snapshot) {
    if (Place* const place = place_of(snapshot.match)) place->snapshot = snapshot.hash;
}

void MatchKeeper::rest(MatchId match) {
    Place* const place = place_of(match);
    if (place == nullptr) return;
    {
        const std::unique_lock lock{mutex_};
        place->match->rest();
    }
    awake_.erase(match);
    for (MatchObserver* observer : observers_) observer->on_rests(match);
}

std::optional<StoredMatch> MatchKeeper::needs_record(const FeedItem& item) const {
    if (item.kind != FeedItem::Kind::entry) return std::nullopt;
    const FoldedMatch* const match = find(item.match);
    if (match == nullptr || !match->rests()) return std::nullopt;
    const LiveMatch& live = match->live();
    return StoredMatch{live.plan, live.head, live.asked, live.branches};
}

void MatchKeeper::go_on(std::unique_ptr<FoldedMatch> folded) {
    const MatchId id = folded->live().key.match;
    Place* const place = place_of(id);
    if (place == nullptr || place->match->live().head.last != folded->live().head.last) return;
    {
        const std::unique_lock lock{mutex_};
        place->match->go_on(std::move(*folded));
    }
    awake_.insert(id);
}

void MatchKeeper::seen(const DeviceSeen& device) {
    for (MatchObserver* observer : observers_) observer->on_device_seen(device);
}

void MatchKeeper::tell_changed(const MatchChanged& change) {
    tell();
    tell_observers(change.match.key.match,
                   [&](MatchObserver& observer) { observer.on_match_changed(change); });
}

FoldedMatch* MatchKeeper::find(MatchId match) const {
    const auto found = matches_.find(match);
    return found == matches_.end() ? nullptr : found->second.match.get();
}

MatchKeeper::Place* MatchKeeper::place_of(MatchId match) {
    return const_cast<Place*>(std::as_const(*this).place_of(match));
}

const MatchKeeper::Place* MatchKeeper::place_of(MatchId match) const {
    const Matches& matches = building_ ? coming_ : matches_;
    const auto found = matches.find(match);
    return found == matches.end() ? nullptr : &found->second;
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
    for (const auto& [id, place] : matches_) all.push_back(&place.match->live());
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
    for (const auto& [id, place] : matches_) {
        const LiveMatch& live = place.match->live();
        const bool closed =
            live.plan.status == PlanStatus::cancelled || live.plan.status == PlanStatus::confirmed;
        if (live.plan.court == court && !closed && live.state.set.stage != Stage::match_over)
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
