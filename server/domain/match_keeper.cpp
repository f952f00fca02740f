#include "server/domain/match_keeper.h"

#include <algorithm>
#include <mutex>

#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "server/domain/record_start.h"
#include "wire/fact_convert.h"

namespace courthand::server {

/// A live match with the fold that makes its state. Without a profile nothing can be folded.
struct MatchKeeper::Kept {
    LiveMatch live;
    std::optional<wire::RecordFold> fold;
};

namespace {

bool same_description(const StoredMatch& stored, const LiveMatch& live) {
    const MatchPlan& a = stored.plan;
    const MatchPlan& b = live.plan;
    return a.number == b.number && a.court == b.court && a.first == b.first &&
           a.second == b.second && a.profile == b.profile && a.status == b.status &&
           a.format == b.format && a.scheduled_at == b.scheduled_at &&
           stored.head.epoch == live.head.epoch && stored.head.grant == live.head.grant &&
           stored.head.writer == live.head.writer && stored.asked == live.asked;
}

void open_fold(LiveMatch& live, std::optional<wire::RecordFold>& fold) {
    live.profile = find_profile(live.plan.profile);
    if (live.profile == nullptr) {
        live.unreadable = "rule profile " + live.plan.profile + " is not known here";
        return;
    }
    live.unreadable.clear();
    fold.emplace(wire::Uuid{live.plan.key.match.value.bytes}, live.profile->rules);
}

void note_branch(LiveMatch& live, std::uint32_t branch) {
    ++live.branch_entries;
    auto& known = live.branches;
    const auto place = std::lower_bound(known.begin(), known.end(), branch);
    if (place == known.end() || *place != branch) known.insert(place, branch);
}

std::string text_of(const std::string& bytes) {
    const auto entry = wire::parse_entry(bytes);
    if (!entry) return {};
    const v1::Fact* fact = wire::fact_of(*entry);
    return fact != nullptr && fact->has_text() ? fact->text().SerializeAsString() : std::string{};
}

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

}  // namespace

MatchKeeper::MatchKeeper() = default;
MatchKeeper::~MatchKeeper() = default;

void MatchKeeper::load(const StoredMatch& match, FeedPosition position) {
    bool changed = false;
    LiveMatch* live = nullptr;
    {
        const std::unique_lock lock{mutex_};
        auto& kept = matches_[match.plan.key.match];
        const bool fresh = kept == nullptr;
        if (fresh) kept = std::make_unique<Kept>();
        live = &kept->live;
        changed = fresh || !same_description(match, *live);
        MatchHead folded = live->head;
        if (fresh) folded.hash = start_hash(match.plan.key.match);
        live->key = match.plan.key;
        live->plan = match.plan;
        live->asked = match.asked;
        live->head = match.head;
        // The end of the record comes from the items that were folded, not from the row.
        live->head.last = folded.last;
        live->head.hash = folded.hash;
        if (fresh) open_fold(*live, kept->fold);
    }
    if (changed && !rebuilding_)
        tell_changed({MatchChanged::Cause::described, *live, 0, 0, {}, position});
}

bool MatchKeeper::needs_load(const FeedItem& item) const {
    if (item.match.nil()) return false;
    const std::shared_lock lock{mutex_};
    const auto found = matches_.find(item.match);
    if (found == matches_.end()) return true;
    // While rebuilding all matches were loaded before, and are loaded once more after.
    if (item.kind == FeedItem::Kind::described) return !rebuilding_;
    return item.kind == FeedItem::Kind::entry && found->second->live.head.epoch < item.epoch;
}

void MatchKeeper::take(const FeedItem& item) {
    Kept* kept = nullptr;
    std::vector<RaisedVerdict> raised;
    bool corrected = false;
    {
        const std::unique_lock lock{mutex_};
        position_ = item.position;
        if (const auto found = matches_.find(item.match); found != matches_.end())
            kept = found->second.get();
        if (kept != nullptr && item.kind == FeedItem::Kind::entry)
            append(*kept, item, raised, corrected);
        if (kept != nullptr && item.kind == FeedItem::Kind::branch)
            note_branch(kept->live, item.branch);
    }
    moved_.notify_all();
    using Kind = FeedItem::Kind;
    if (item.kind == Kind::ruling || item.kind == Kind::venue)
        for (MatchObserver* observer : observers_) observer->on_notice(item);
    if (kept == nullptr) return;
    if (item.kind == Kind::entry && !rebuilding_) {
        const auto cause =
            corrected ? MatchChanged::Cause::corrected : MatchChanged::Cause::appended;
        tell_changed({cause, kept->live, item.number, item.number, raised, item.position});
    }
    if (item.kind == Kind::branch)
        for (MatchObserver* observer : observers_)
            observer->on_branch_stored({kept->live, item.branch, item.device, item.epoch,
                                        item.number, item.stored_at, item.position});
}

void MatchKeeper::append(Kept& kept, const FeedItem& item, std::vector<RaisedVerdict>& raised,
                         bool& corrected) {
    LiveMatch& live = kept.live;
    live.head.last = item.number;
    live.head.hash = item.hash;
    live.last_entry_at = item.stored_at;
    live.bytes.push_back(item.bytes);
    live.texts.push_back(text_of(*item.bytes));
    if (!kept.fold || !live.unreadable.empty()) return;
    const std::size_t before = kept.fold->verdicts().size();
    if (const auto fault = kept.fold->add(*item.bytes)) {
        live.unreadable = fault->message();
        return;
    }
    live.records.push_back(kept.fold->records().back());
    corrected = kept.fold->refolded();
    if (corrected)
        live.entries = effective(live.records).entries;
    else
        live.entries.push_back({item.number, std::get<Fact>(live.records.back())});
    live.state = kept.fold->state();
    live.standing = standing(live.profile->rules, live.state);
    if (corrected) return;
    const auto& verdicts = kept.fold->verdicts();
    for (std::size_t i = before; i < verdicts.size(); ++i)
        raised.push_back({verdicts[i].at, verdicts[i].verdict});
}

void MatchKeeper::rebuilt() {
    rebuilding_ = false;
    for (const auto& [id, kept] : matches_) {
        const EntryNumber first = kept->live.head.last == 0 ? 0 : 1;
        tell_changed(
            {MatchChanged::Cause::rebuilt, kept->live, first, kept->live.head.last, {}, position_});
    }
    for (MatchObserver* observer : observers_) observer->on_rebuilt();
}

void MatchKeeper::seen(const DeviceSeen& device) {
    for (MatchObserver* observer : observers_) observer->on_device_seen(device);
}

void MatchKeeper::tell_changed(const MatchChanged& change) {
    for (MatchObserver* observer : observers_) observer->on_match_changed(change);
}

FeedPosition MatchKeeper::position() const {
    const std::shared_lock lock{mutex_};
    return position_;
}

bool MatchKeeper::wait_for(FeedPosition position, std::chrono::milliseconds patience) const {
    std::shared_lock lock{mutex_};
    return moved_.wait_for(lock, patience, [&] { return position_ >= position; });
}

bool MatchKeeper::read(MatchId match, const std::function<void(const LiveMatch&)>& reader) const {
    const std::shared_lock lock{mutex_};
    const auto found = matches_.find(match);
    if (found == matches_.end()) return false;
    reader(found->second->live);
    return true;
}

FeedPosition MatchKeeper::read_at(
    const std::function<void(std::span<const LiveMatch* const>)>& reader) const {
    const std::shared_lock lock{mutex_};
    std::vector<const LiveMatch*> all;
    all.reserve(matches_.size());
    for (const auto& [id, kept] : matches_) all.push_back(&kept->live);
    std::sort(all.begin(), all.end(), [](const LiveMatch* a, const LiveMatch* b) {
        return a->plan.number != b->plan.number ? a->plan.number < b->plan.number : a->key < b->key;
    });
    reader(all);
    return position_;
}

std::vector<MatchId> MatchKeeper::on_court(std::uint32_t court) const {
    std::vector<MatchId> ids;
    (void)read_at([&](std::span<const LiveMatch* const> all) {
        std::vector<const LiveMatch*> here;
        for (const LiveMatch* match : all)
            if (match->plan.court == court && match->plan.status != PlanStatus::cancelled &&
                match->state.set.stage != Stage::match_over)
                here.push_back(match);
        std::sort(here.begin(), here.end(),
                  [](const LiveMatch* a, const LiveMatch* b) { return comes_before(*a, *b); });
        for (const LiveMatch* match : here) ids.push_back(match->key.match);
    });
    return ids;
}

}  // namespace courthand::server
