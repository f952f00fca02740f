#include "server/feed/follower.h"

#include <algorithm>
#include <unordered_map>

#include "server/domain/fault_shield.h"
#include "server/domain/match_snapshot.h"
#include "server/feed/read_match.h"

namespace courthand::server {
namespace {

bool same_item(const FeedItem& a, const FeedItem& b) {
    return a.position == b.position && a.kind == b.kind && a.match == b.match && a.id == b.id &&
           a.hash == b.hash;
}

}  // namespace

Follower::Follower(TournamentId tournament, Parts parts, Report report)
    : tournament_{tournament}, parts_{parts}, report_{std::move(report)} {}

Follower::~Follower() {
    stop();
}

void Follower::stop() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    if (thread_.joinable()) thread_.join();
}

Status Follower::rebuild() {
    auto view = parts_.store.view(tournament_);
    if (!view.ok()) return view.status();
    std::unordered_map<MatchId, const MatchSnapshot*> snapshots;
    for (const MatchSnapshot& snapshot : view->snapshots) snapshots[snapshot.match] = &snapshot;
    parts_.keeper.begin_anew();
    Rebuild rebuild;
    for (const StoredMatch& match : view->matches) {
        const auto found = snapshots.find(match.plan.key.match);
        const MatchSnapshot* const snapshot = found == snapshots.end() ? nullptr : found->second;
        if (const Status added = add_match(match, snapshot, rebuild); !added.ok()) return added;
    }
    position_ = view->head;
    generation_ = view->generation;
    last_.reset();
    head_seen_ = 0;
    parts_.keeper.rebuilt(position_);
    anew_ = parts_.keeper.wants_anew();
    Hub::Courts courts;
    for (const StoredMatch& match : view->matches) courts[match.plan.key.match] = match.plan.court;
    parts_.hub.begin_anew(generation_, position_, courts);
    return Status::fine();
}

Status Follower::add_match(const StoredMatch& match, const MatchSnapshot* snapshot,
                           Rebuild& rebuild) {
    if (snapshot != nullptr && match.head.last > 0) {
        if (auto restored = restored_match(match, *snapshot)) {
            parts_.keeper.add(std::make_unique<FoldedMatch>(std::move(restored->live)),
                              restored->parts);
            return Status::fine();
        }
    }
    auto read = read_match(parts_.store, match);
    if (!read.ok()) return read.status();
    auto folded = *std::move(read);
    const bool over = folded->live().state.set.stage == Stage::match_over;
    parts_.keeper.add(std::move(folded));
    const MatchId id = match.plan.key.match;
    if (!over || !rebuild.keeps_snapshots || !parts_.keeper.is_sound(id)) return Status::fine();
    // At once: the records of a whole tournament need not be in memory together.
    rebuild.keeps_snapshots = keep_snapshot(id);
    if (rebuild.keeps_snapshots) parts_.keeper.rest(id);
    return Status::fine();
}

bool Follower::keep_snapshot(MatchId match) {
    const auto snapshot = parts_.keeper.snapshot_of(match);
    if (!snapshot) return false;
    if (!parts_.store.keep_snapshot(tournament_, *snapshot).ok()) return false;
    parts_.keeper.kept(*snapshot);
    return true;
}

void Follower::rest_quiet_matches(MatchKeeper::Steady now) {
    for (const MatchId match : parts_.keeper.due_to_rest(now, most_rests_per_look)) {
        // The store is away: the records stay until it is back.
        if (!keep_snapshot(match)) return;
        parts_.keeper.rest(match);
    }
}

void Follower::keep_snapshots() {
    for (const MatchId match : parts_.keeper.without_snapshot())
        if (!keep_snapshot(match)) return;
}

void Follower::start() {
    thread_ = std::thread{[this] { run(); }};
}

void Follower::wake() {
    {
        const std::scoped_lock lock{mutex_};
        woken_ = true;
    }
    wake_.notify_one();
}

void Follower::offer(std::span<const FeedItem> items) {
    {
        const std::scoped_lock lock{mutex_};
        offers_come_ = true;
        if (offered_.size() + items.size() <= most_offered)
            offered_.insert(offered_.end(), items.begin(), items.end());
        else
            woken_ = must_read_ = true;
    }
    wake_.notify_one();
}

void Follower::read_feed_next() {
    {
        const std::scoped_lock lock{mutex_};
        woken_ = must_read_ = true;
    }
    wake_.notify_one();
}

void Follower::run() {
    FaultShield seeing{"devices that were heard"};
    FaultShield ticking{"a tick of the feed"};
    auto next_tick = std::chrono::steady_clock::now();
    while (true) {
        wait();
        {
            const std::scoped_lock lock{mutex_};
            if (stop_) return;
        }
        follow();
        (void)seeing.run([this] {
            for (const DeviceSeen& device : parts_.presence.take()) parts_.keeper.seen(device);
        });
        const auto now = std::chrono::steady_clock::now();
        if (now < next_tick) continue;
        next_tick = now + looks_every;
        (void)ticking.run([&] {
            parts_.hub.tick();
            rest_quiet_matches(now);
        });
    }
}

/// Whatever goes wrong costs one line of the log and a fold from the store, never the server.
void Follower::follow() {
    try {
        if (const Status taken = take_offered(); !taken.ok()) return say(taken);
        const Look look = due_look();
        if (look != Look::none) say(look == Look::brief ? look_briefly() : catch_up());
    } catch (...) {
        log_current_exception("fold");
        anew_ = true;
    }
}

MatchKeeper::Steady Follower::next_look() const {
    if (!woken_) return last_look_ + looks_every;
    // Most wake-ups tell of what was offered, or is about to be: one look for many of them.
    const bool offers = offers_come_ || head_seen_ > position_;
    return offers ? last_look_ + looks_apart : MatchKeeper::Steady{};
}

void Follower::wait() {
    std::unique_lock lock{mutex_};
    while (!stop_ && offered_.empty()) {
        const auto until = next_look();
        if (std::chrono::steady_clock::now() >= until) return;
        wake_.wait_until(lock, until);
    }
}

// What this server commits comes by itself, most often after the feed shows it. Only what has not
// come by the look after that must be read.
Follower::Look Follower::due_look() {
    const auto now = std::chrono::steady_clock::now();
    const std::scoped_lock lock{mutex_};
    if (now < next_look()) return Look::none;
    const bool brief = offers_come_ && last_ && !must_read_ && !anew_ && position_ >= head_seen_;
    woken_ = offers_come_ = must_read_ = false;
    last_look_ = now;
    return brief ? Look::brief : Look::whole;
}

Status Follower::look_briefly() {
    FeedQuery query;
    query.tournament = tournament_;
    query.after = position_ - 1;
    query.most = 1;
    const auto page = parts_.store.read_feed(query);
    if (!page.ok()) return page.status();
    if (went_back(*page)) return catch_up();
    head_seen_ = page->head;
    if (page->head > position_) wake();
    return Status::fine();
}

Status Follower::take_offered() {
    std::vector<FeedItem> offered;
    {
        const std::scoped_lock lock{mutex_};
        offered.swap(offered_);
    }
    std::span<const FeedItem> rest{offered};
    for (; !rest.empty() && rest.front().position <= position_; rest = rest.subspan(1)) {
        const auto known = parts_.hub.at(rest.front().position);
        if (known && same_item(*known, rest.front())) continue;
        // Another item has this position now, it seems: the feed tells, and nothing is taken
        // before.
        look_first_ = true;
        break;
    }
    if (look_first_) {
        read_feed_next();
        return Status::fine();
    }
    std::size_t count = 0;
    while (count < rest.size() && rest[count].position == position_ + count + 1) ++count;
    // What is between them was committed by others: that must be read.
    if (count < rest.size()) read_feed_next();
    Status status = take(rest.first(count));
    if (!status.ok()) read_feed_next();
    return status;
}

Status Follower::catch_up() {
    while (true) {
        if (anew_)
            if (const Status rebuilt = rebuild(); !rebuilt.ok()) return rebuilt;
        FeedQuery query;
        query.tournament = tournament_;
        // The last item is read once more: another one in its place tells that the feed went back
        // and has grown again since.
        query.after = last_ ? position_ - 1 : position_;
        auto page = parts_.store.read_feed(query);
        if (!page.ok()) return page.status();
        if (went_back(*page)) {
            // Tables are told by another generation, whatever it was that put the database back.
            if (page->generation == generation_)
                if (const Status renewed = parts_.store.renew_generation(tournament_);
                    !renewed.ok())
                    return renewed;
            anew_ = true;
            continue;
        }
        look_first_ = false;
        std::span<const FeedItem> items{page->items};
        if (!items.empty() && items.front().position <= position_) items = items.subspan(1);
        if (const Status status = take(items); !status.ok()) return status;
        if (!anew_ && page->items.size() < query.most) return Status::fine();
    }
}

bool Follower::went_back(const FeedPage& page) const {
    if (page.generation != generation_ || page.head < position_) return true;
    if (!last_ || page.items.empty() || page.items.front().position != position_) return false;
    const FeedItem& now = page.items.front();
    // An entry that was promoted from its branch leaves an empty item in its old place.
    const bool promoted = last_->kind == FeedItem::Kind::branch &&
                          now.kind == FeedItem::Kind::described && now.match == last_->match;
    return !promoted && !same_item(now, *last_);
}

Status Follower::take(std::span<const FeedItem> items) {
    std::size_t taken = 0;
    Status status;
    for (; taken < items.size() && status.ok() && !anew_; ++taken) {
        status = take(items[taken]);
        if (!status.ok() || anew_) break;
    }
    parts_.keeper.tell();
    if (parts_.keeper.wants_anew()) {
        anew_ = true;
        read_feed_next();
    }
    parts_.hub.publish(items.first(taken), position_, [this](MatchId match) {
        std::uint32_t court = 0;
        parts_.keeper.read(match, [&](const LiveMatch& live) { court = live.plan.court; });
        return court;
    });
    return status;
}

Status Follower::take(const FeedItem& item) {
    if (parts_.keeper.needs_load(item)) {
        auto match = parts_.store.match({tournament_, item.match});
        if (!match.ok()) return match.status();
        parts_.keeper.load(*match, item.position);
    }
    if (const auto resting = parts_.keeper.needs_record(item)) {
        if (const Status read = go_on_with(*resting); !read.ok()) return read;
    }
    if (parts_.keeper.take(item) == MatchKeeper::Taken::out_of_order) {
        if (anew_because_of_ != item.position) {
            anew_because_of_ = item.position;
            anew_ = true;
            return Status::fine();
        }
        // Reading anew did not help: one damaged match must not hold up the venue.
        parts_.keeper.give_up(item);
    }
    position_ = item.position;
    last_ = item;
    return Status::fine();
}

Status Follower::go_on_with(const StoredMatch& resting) {
    auto prepared = parts_.waking == nullptr
                        ? nullptr
                        : parts_.waking->take(resting.plan.key.match, resting.head);
    if (prepared == nullptr) {
        auto folded = read_match(parts_.store, resting);
        if (!folded.ok()) return folded.status();
        prepared = *std::move(folded);
    }
    parts_.keeper.go_on(std::move(prepared));
    return Status::fine();
}

void Follower::say(const Status& status) {
    if (status.ok() && !failing_) return;
    failing_ = !status.ok();
    report_(status);
}

}  // namespace courthand::server
