#include "server/store/memory_match_store.h"

#include <algorithm>
#include <set>

#include "server/domain/record_start.h"

namespace courthand::server {
namespace {

Status no_tournament() {
    return Status::failed(StatusCode::not_found, "there is no such tournament");
}
Status no_match() {
    return Status::failed(StatusCode::not_found, "there is no such match");
}
Status nobody_asks() {
    return Status::failed(StatusCode::conflict, "this device does not ask for the match any more",
                          "look at the list of alerts again");
}

}  // namespace

Result<std::vector<Tournament>> MemoryMatchStore::tournaments() {
    const std::scoped_lock lock{mutex_};
    if (!failure_.ok()) return failure_;
    std::vector<Tournament> all;
    for (const auto& [id, shelf] : shelves_) all.push_back(shelf.tournament);
    return all;
}

Result<Tournament> MemoryMatchStore::create_tournament(TournamentId id, const std::string& name) {
    const std::scoped_lock lock{mutex_};
    if (!failure_.ok()) return failure_;
    if (shelves_.contains(id))
        return Status::failed(StatusCode::already_exists, "the tournament exists already");
    Shelf& shelf = shelves_[id];
    shelf.tournament = {id, name, new_uuid()};
    return shelf.tournament;
}

Result<MatchPlan> MemoryMatchStore::create_match(const MatchPlan& plan) {
    MatchPlan kept = plan;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(plan.key.tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        if (shelf.matches.contains(plan.key.match))
            return Status::failed(StatusCode::already_exists, "the match exists already");
        if (kept.number == 0 && !kept.opened_at_table) {
            for (const auto& [id, match] : shelf.matches)
                kept.number = std::max(kept.number, match.plan.number);
            ++kept.number;
        }
        StoredMatch& match = shelf.matches[plan.key.match];
        match.plan = kept;
        match.head.hash = start_hash(plan.key.match);
        shelf.moved_in[plan.key.match] = shelf.tournament.generation;
        describe(shelf, plan.key.match);
    }
    tell(plan.key.tournament);
    return kept;
}

Result<MatchPlan> MemoryMatchStore::change_match(const MatchPlan& plan) {
    return change(plan, true);
}

Result<MatchPlan> MemoryMatchStore::change_unbegun(const MatchPlan& plan) {
    return change(plan, false);
}

Result<MatchPlan> MemoryMatchStore::change(const MatchPlan& plan, bool begun_too) {
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(plan.key.tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        const auto at = match_of(shelf, plan.key.match);
        if (!at.ok()) return at.status();
        StoredMatch& match = **at;
        const bool begun = match.head.last != 0 || shelf.counts[plan.key.match].entries != 0;
        if (begun && !begun_too) return has_begun();
        match.plan = plan;
        describe(shelf, plan.key.match);
    }
    tell(plan.key.tournament);
    return plan;
}

Result<std::vector<StoredMatch>> MemoryMatchStore::matches(TournamentId tournament) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    std::vector<StoredMatch> all;
    for (const auto& [id, match] : shelf.matches) all.push_back(with_branches(shelf, match));
    return all;
}

Result<StoredMatch> MemoryMatchStore::match(MatchKey key) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(key.tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    const auto at = match_of(shelf, key.match);
    if (!at.ok()) return at.status();
    StoredMatch& match = **at;
    return with_branches(shelf, match);
}

Result<MatchHead> MemoryMatchStore::grant_writer(const GrantWish& wish) {
    MatchHead granted;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(wish.key.tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        const auto at = match_of(shelf, wish.key.match);
        if (!at.ok()) return at.status();
        StoredMatch& match = **at;
        const Result<MatchHead> next = next_writer(match.head, wish);
        if (!next.ok()) return next.status();
        if (*next == match.head) return *next;
        granted = match.head = *next;
        shelf.moved_in[wish.key.match] = shelf.tournament.generation;
        match.asked.reset();
        describe(shelf, wish.key.match);
    }
    tell(wish.key.tournament);
    return granted;
}

Result<StoredMatch> MemoryMatchStore::ask_take_over(MatchKey key, DeviceId device) {
    StoredMatch asked;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(key.tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        const auto at = match_of(shelf, key.match);
        if (!at.ok()) return at.status();
        StoredMatch& match = **at;
        const ServerTime now = std::chrono::system_clock::now();
        if (match.asked && match.asked->device == device) return match;
        // One of the future was asked before the clock was set back: it counts as old.
        const bool stands =
            match.asked && match.asked->at <= now && now - match.asked->at < take_over_stands;
        if (stands) return match;
        match.asked = TakeOverAsked{device, now};
        asked = match;
        describe(shelf, key.match);
    }
    tell(key.tournament);
    return asked;
}

Result<MatchHead> MemoryMatchStore::answer_take_over(MatchKey key, DeviceId device, bool consent,
                                                     const std::string& reason) {
    MatchHead head;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(key.tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        const auto at = match_of(shelf, key.match);
        if (!at.ok()) return at.status();
        StoredMatch& match = **at;
        if (!match.asked || match.asked->device != device) return nobody_asks();
        if (consent) {
            const auto next =
                next_writer(match.head, {key, device, GrantWish::How::taken_over, reason});
            if (!next.ok()) return next.status();
            match.head = *next;
            shelf.moved_in[key.match] = shelf.tournament.generation;
        }
        match.asked.reset();
        head = match.head;
        describe(shelf, key.match);
    }
    tell(key.tournament);
    return head;
}

Result<std::vector<StoredEntry>> MemoryMatchStore::read_record(MatchKey key, EntryNumber after,
                                                               std::size_t most) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(key.tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    std::vector<StoredEntry> entries;
    for (const FeedItem& item : shelf.feed) {
        if (item.kind != FeedItem::Kind::entry || item.match != key.match) continue;
        if (item.number <= after) continue;
        const bool follows = item.number == after + entries.size() + 1;
        if (!follows || entries.size() == most) break;
        entries.push_back({item.bytes, item.signature, item.hash, item.device, item.stored_at});
    }
    return entries;
}

Result<TournamentView> MemoryMatchStore::view(TournamentId tournament) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    TournamentView view;
    view.head = shelf.feed.empty() ? 0 : shelf.feed.back().position;
    view.generation = shelf.tournament.generation;
    for (const auto& [id, match] : shelf.matches)
        view.matches.push_back(with_branches(shelf, match));
    for (const auto& [match, snapshot] : shelf.snapshots) view.snapshots.push_back(snapshot);
    return view;
}

Result<std::vector<MatchSnapshot>> MemoryMatchStore::snapshots(TournamentId tournament) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    std::vector<MatchSnapshot> all;
    for (const auto& [match, snapshot] : shelf.snapshots) all.push_back(snapshot);
    return all;
}

Status MemoryMatchStore::keep_snapshot(TournamentId tournament, const MatchSnapshot& snapshot) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    shelf.snapshots[snapshot.match] = snapshot;
    return Status::fine();
}

Result<std::vector<AppendResult>> MemoryMatchStore::append(TournamentId tournament,
                                                           std::span<const AppendItem> items) {
    std::vector<AppendResult> results;
    std::vector<EpochClaim> claims;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        ++appends_;
        AppendPlan plan = plan_append(context_of(shelf, items), items);
        keep(shelf, plan, items);
        results = std::move(plan.results);
        claims = std::move(plan.claims);
    }
    tell_claims(claims);
    tell(tournament);
    return results;
}

Result<FeedPage> MemoryMatchStore::read_feed(const FeedQuery& query) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(query.tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    FeedPage page;
    const auto& feed = shelf.feed;
    page.head = feed.empty() ? 0 : feed.back().position;
    page.generation = shelf.tournament.generation;
    auto from = std::upper_bound(
        feed.begin(), feed.end(), query.after,
        [](FeedPosition after, const FeedItem& item) { return after < item.position; });
    for (; from != feed.end() && from->position <= query.up_to; ++from) {
        const FeedItem& item = *from;
        if (page.items.size() == query.most) break;
        const bool wanted = query.matches.empty() ||
                            std::find(query.matches.begin(), query.matches.end(), item.match) !=
                                query.matches.end();
        if (wanted) page.items.push_back(item);
    }
    return page;
}

Result<FeedPosition> MemoryMatchStore::publish(TournamentId tournament, const FeedNotice& notice) {
    FeedItem item;
    {
        const std::scoped_lock lock{mutex_};
        const auto found = shelf_of(tournament);
        if (!found.ok()) return found.status();
        Shelf& shelf = **found;
        std::vector<FeedItem>& feed = shelf.feed;
        for (const FeedItem& old : feed)
            if (old.kind == notice.kind && old.id == notice.id) return old.position;
        item.position = (feed.empty() ? 0 : feed.back().position) + 1;
        item.kind = notice.kind;
        item.match = notice.match;
        item.id = notice.id;
        item.stored_at = std::chrono::system_clock::now();
        item.bytes = std::make_shared<const std::string>(notice.bytes);
        feed.push_back(item);
    }
    tell(tournament);
    return item.position;
}

void MemoryMatchStore::set_claim_listener(ClaimListener listener) {
    const std::scoped_lock lock{listener_mutex_};
    claim_listener_ = std::move(listener);
}

void MemoryMatchStore::tell_claims(const std::vector<EpochClaim>& claims) {
    const std::scoped_lock lock{listener_mutex_};
    if (!claim_listener_) return;
    for (const EpochClaim& claim : claims) claim_listener_(claim);
}

void MemoryMatchStore::set_listener(Listener listener) {
    const std::scoped_lock lock{listener_mutex_};
    listener_ = std::move(listener);
}

void MemoryMatchStore::fail_with(Status status) {
    const std::scoped_lock lock{mutex_};
    failure_ = std::move(status);
}

void MemoryMatchStore::put_back(TournamentId tournament, FeedPosition position, Uuid generation) {
    const std::scoped_lock lock{mutex_};
    Shelf& shelf = shelves_.at(tournament);
    shelf.tournament.generation = generation;
    std::erase_if(shelf.feed, [&](const FeedItem& item) { return item.position > position; });
    index(shelf);
    for (auto& [id, match] : shelf.matches) {
        match.head.last = 0;
        match.head.hash = start_hash(id);
    }
    for (const FeedItem& item : shelf.feed) {
        if (item.kind != FeedItem::Kind::entry) continue;
        MatchHead& head = shelf.matches[item.match].head;
        head.last = item.number;
        head.hash = item.hash;
    }
}

void MemoryMatchStore::lose(TournamentId tournament, FeedPosition position) {
    const std::scoped_lock lock{mutex_};
    Shelf& shelf = shelves_.at(tournament);
    std::erase_if(shelf.feed, [&](const FeedItem& item) { return item.position == position; });
    index(shelf);
}

bool MemoryMatchStore::recorded(TournamentId tournament, EntryId id, const Hash& hash) const {
    const std::scoped_lock lock{mutex_};
    const auto shelf = shelves_.find(tournament);
    if (shelf == shelves_.end()) return false;
    const auto known = shelf->second.known.find(id);
    return known != shelf->second.known.end() && known->second.branch == 0 &&
           known->second.hash == hash;
}

std::size_t MemoryMatchStore::appends() const {
    const std::scoped_lock lock{mutex_};
    return appends_;
}

/// Needs the lock.
Result<MemoryMatchStore::Shelf*> MemoryMatchStore::shelf_of(TournamentId tournament) {
    if (!failure_.ok()) return failure_;
    const auto found = shelves_.find(tournament);
    if (found == shelves_.end()) return no_tournament();
    return &found->second;
}

Result<StoredMatch*> MemoryMatchStore::match_of(Shelf& shelf, MatchId match) {
    const auto found = shelf.matches.find(match);
    if (found == shelf.matches.end()) return no_match();
    return &found->second;
}

StoredMatch MemoryMatchStore::with_branches(const Shelf& shelf, StoredMatch match) {
    std::set<std::uint32_t> branches;
    for (const FeedItem& item : shelf.feed)
        if (item.match == match.plan.key.match && item.branch != 0) branches.insert(item.branch);
    match.branches.assign(branches.begin(), branches.end());
    return match;
}

AppendContext MemoryMatchStore::context_of(const Shelf& shelf, std::span<const AppendItem> items) {
    AppendContext context;
    context.head = shelf.feed.empty() ? 0 : shelf.feed.back().position;
    for (const AppendItem& item : items) {
        if (const auto known = shelf.known.find(item.id); known != shelf.known.end())
            context.known.insert(*known);
        const auto match = shelf.matches.find(item.match);
        if (match == shelf.matches.end() || context.matches.contains(item.match)) continue;
        MatchContext& at = context.matches[item.match];
        at.head = match->second.head;
        at.put_back = shelf.moved_in.at(item.match) != shelf.tournament.generation;
        if (const auto count = shelf.counts.find(item.match); count != shelf.counts.end())
            at.beside = count->second;
    }
    for (const auto& [id, entry] : shelf.beside) {
        context.beside[entry.hash] = entry;
        std::uint32_t& last = context.branches[{entry.match, entry.device, entry.epoch}];
        last = std::max(last, entry.branch);
    }
    return context;
}

void MemoryMatchStore::index(Shelf& shelf) {
    shelf.known.clear();
    for (const FeedItem& item : shelf.feed)
        if (item.kind == FeedItem::Kind::entry || item.kind == FeedItem::Kind::branch)
            shelf.known[item.id] = {item.match, item.hash, item.position, item.branch};
    std::erase_if(shelf.beside, [&](const auto& one) { return !shelf.known.contains(one.first); });
}

void MemoryMatchStore::keep(Shelf& shelf, const AppendPlan& plan,
                            std::span<const AppendItem> items) {
    const std::size_t before = shelf.feed.size();  // what is new has later positions
    const auto add = [&](std::size_t i, FeedItem::Kind kind) {
        const AppendItem& item = items[i];
        const AppendResult& result = plan.results[i];
        shelf.feed.push_back({result.position, kind, item.match, item.number, item.epoch, item.id,
                              item.device, item.hash, result.branch,
                              std::chrono::system_clock::now(), item.bytes, item.signature,
                              item.read});
        shelf.known[item.id] = {item.match, item.hash, result.position, result.branch};
        if (kind == FeedItem::Kind::branch)
            shelf.beside[item.id] = {item.id,    item.match,    item.device,
                                     item.epoch, item.number,   item.previous,
                                     item.hash,  result.branch, result.position};
    };
    for (const std::size_t i : plan.entries) add(i, FeedItem::Kind::entry);
    for (const std::size_t i : plan.branches) add(i, FeedItem::Kind::branch);
    for (const Promotion& promotion : plan.promotions) promote(shelf, promotion);
    for (const BranchesChanged& changed : plan.branches_changed)
        describe(shelf, changed.match, changed.position);
    const auto by_position = [](const FeedItem& a, const FeedItem& b) {
        return a.position < b.position;
    };
    const auto new_from = shelf.feed.begin() + static_cast<std::ptrdiff_t>(before);
    std::sort(new_from, shelf.feed.end(), by_position);
    for (const auto& [match, count] : plan.beside) shelf.counts[match] = count;
    for (const auto& [match, head] : plan.heads) {
        shelf.matches[match].head = head;
        shelf.moved_in[match] = shelf.tournament.generation;
    }
}

/// Its place in the feed stays, as a word without content; the entry stands at a new one.
void MemoryMatchStore::promote(Shelf& shelf, const Promotion& promotion) {
    const auto old = std::find_if(shelf.feed.begin(), shelf.feed.end(), [&](const FeedItem& item) {
        return item.position == promotion.before;
    });
    FeedItem entry = *old;
    *old = {};
    old->position = promotion.before;
    old->kind = FeedItem::Kind::described;
    old->match = promotion.match;
    old->stored_at = entry.stored_at;
    entry.position = promotion.position;
    entry.kind = FeedItem::Kind::entry;
    entry.branch = 0;
    entry.stored_at = std::chrono::system_clock::now();
    shelf.known[promotion.id] = {entry.match, entry.hash, entry.position, 0};
    shelf.feed.push_back(std::move(entry));
    shelf.beside.erase(promotion.id);
    shelf.promoted.push_back(promotion);
}

Status MemoryMatchStore::renew_generation(TournamentId tournament) {
    const std::scoped_lock lock{mutex_};
    const auto found = shelf_of(tournament);
    if (!found.ok()) return found.status();
    Shelf& shelf = **found;
    shelf.tournament.generation = new_uuid();
    return Status::fine();
}

void MemoryMatchStore::describe(Shelf& shelf, MatchId match) {
    describe(shelf, match, (shelf.feed.empty() ? 0 : shelf.feed.back().position) + 1);
}

void MemoryMatchStore::describe(Shelf& shelf, MatchId match, FeedPosition position) {
    FeedItem item;
    item.position = position;
    item.kind = FeedItem::Kind::described;
    item.match = match;
    item.stored_at = std::chrono::system_clock::now();
    shelf.feed.push_back(item);
}

// Under its lock: once another listener is set, this one is not called any more.
void MemoryMatchStore::tell(TournamentId tournament) {
    const std::scoped_lock lock{listener_mutex_};
    if (listener_) listener_(tournament);
}

}  // namespace courthand::server
