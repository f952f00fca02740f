#include "server/service/watch_session.h"

#include <algorithm>

#include "courthand/rules/profile.h"
#include "server/service/catch_up.h"
#include "server/service/match_message.h"
#include "server/service/standing_rulings.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

Result<WatchWish> watch_wish(const v1::WatchRequest& request) {
    const auto invalid = [](const char* why) { return Status::failed(StatusCode::invalid, why); };
    WatchWish wish;
    if (request.cursor().size() > wire::most_cursor_bytes)
        return invalid("cursor: longer than any this server made");
    wish.cursor = request.cursor();
    switch (request.what_case()) {
        case v1::WatchRequest::kMatchId: {
            const auto id = uuid_from_bytes(request.match_id());
            if (!id || id->nil()) return invalid("match_id: must be 16 bytes");
            wish.watched = MatchId{*id};
            return wish;
        }
        case v1::WatchRequest::kCourt:
            if (request.court() == 0 || request.court() > wire::most_courts)
                return invalid("court: must be 1 to 1000");
            wish.watched = WatchedCourt{request.court()};
            return wish;
        case v1::WatchRequest::WHAT_NOT_SET:
            break;
    }
    return invalid("say what to watch: match_id or court");
}

WatchSession::Next WatchSession::next(std::vector<v1::WatchResponse>& out) {
    if (!fresh_) return Next::read_store;
    const std::size_t before = out.size();
    if (!begun_) begin(out);
    if (cursor_unchecked_) return out.size() > before ? Next::messages : Next::read_store;
    while (out.size() == before) {
        if (needs_record()) return Next::read_store;
        if (!rulings_.empty()) {
            send_rulings(out);
        } else if (!to_rule_.empty() && to_snapshot_.empty() && !earlier_) {
            return Next::read_store;
        } else if (snapshot_open_) {
            snapshot_match(out);
        } else if (earlier_) {
            send_earlier(out);
        } else if (!pending_.empty()) {
            convert(out);
        } else if (const Next wanted = more_items(); wanted != Next::messages) {
            return wanted;
        } else if (!begun_) {
            begin(out);
        }
    }
    return Next::messages;
}

Hub::Interest WatchSession::interest() const {
    if (const auto* one = std::get_if<MatchId>(&wish_.watched)) return *one;
    return Hub::Court{std::get<WatchedCourt>(wish_.watched).court};
}

void WatchSession::begin(std::vector<v1::WatchResponse>& out) {
    begun_ = true;
    feed_ = parts_.hub.feed();
    if (wish_.cursor.empty()) return begin_snapshot();
    const auto cursor = watch_cursor(wish_.cursor);
    const bool same_feed = cursor && cursor->generation == feed_.generation;
    if (same_feed && cursor->position + most_items_behind >= feed_.head) {
        position_ = cursor->position;
        cursor_unchecked_ = position_ > feed_.head;
        return;
    }
    v1::WatchResponse response;
    response.mutable_resync()->set_message(
        same_feed ? "the cursor is too old; everything is sent anew"
                  : "the cursor is of another feed; everything is sent anew");
    out.push_back(std::move(response));
    begin_snapshot();
}

void WatchSession::begin_snapshot() {
    snapshot_open_ = true;
    const auto list = [this](std::span<const LiveMatch* const> matches) {
        for (const LiveMatch* match : matches) {
            to_snapshot_.push_back({match->key.match, 1, match->head.last});
            sent_[match->key.match] = match->head.last;
            want_rulings(*match);
        }
    };
    if (const auto* one = std::get_if<MatchId>(&wish_.watched)) {
        position_ = parts_.keeper.read_one(*one, list);
        return;
    }
    const std::uint32_t court = std::get<WatchedCourt>(wish_.watched).court;
    position_ = parts_.keeper.read_court(court, list);
    want_rulings_elsewhere(court);
}

void WatchSession::want_rulings(const LiveMatch& match) {
    if (!match.standing.empty()) to_rule_.push_back(match.key.match);
}

// A match that has left the court is still recorded by the table that writes it.
void WatchSession::want_rulings_elsewhere(std::uint32_t court) {
    if (!wish_.table) return;
    (void)parts_.keeper.read_at([&](std::span<const LiveMatch* const> matches) {
        for (const LiveMatch* match : matches)
            if (match->plan.court != court && match->head.writer == *wish_.table)
                want_rulings(*match);
    });
}

Status WatchSession::read_rulings(MatchStore& store) {
    const MatchKey key{parts_.tournament, to_rule_.front()};
    VerdictList standing;
    const Profile* profile = nullptr;
    parts_.keeper.read(key.match, [&](const LiveMatch& match) {
        standing = match.standing;
        profile = match.profile;
    });
    // Of a match without a known profile nothing was judged.
    if (profile != nullptr) {
        auto rulings = standing_rulings(store, key, profile->rules, standing, position_);
        if (!rulings.ok()) return rulings.status();
        rulings_ = *std::move(rulings);
    }
    to_rule_.pop_front();
    return Status::fine();
}

void WatchSession::send_rulings(std::vector<v1::WatchResponse>& out) {
    for (v1::RulingNotice& ruling : rulings_)
        *out.emplace_back().mutable_ruling() = std::move(ruling);
    rulings_.clear();
}

// With a cursor that is of no feed: the watcher is told to forget what it has.
void WatchSession::begin_anew() {
    wish_.cursor = to_bytes(WatchCursor{});
    begun_ = cursor_unchecked_ = snapshot_open_ = false;
    to_snapshot_.clear();
    to_rule_.clear();
    rulings_.clear();
    pending_.clear();
    earlier_.reset();
    page_.reset();
    entries_.clear();
    sent_.clear();
}

bool WatchSession::needs_record() const {
    if (!entries_.empty()) return false;
    if (snapshot_open_) return !to_snapshot_.empty() && !to_snapshot_.front().done();
    return earlier_ && !earlier_->done();
}

void WatchSession::snapshot_match(std::vector<v1::WatchResponse>& out) {
    if (to_snapshot_.empty()) {
        out.emplace_back().mutable_snapshot();
    } else {
        Stretch& stretch = to_snapshot_.front();
        fill_part(stretch, *out.emplace_back().mutable_snapshot());
        if (stretch.done()) to_snapshot_.pop_front();
    }
    // The rulings belong to the snapshot: one more part ends it.
    if (!to_snapshot_.empty() || !to_rule_.empty()) return;
    snapshot_open_ = false;
    out.back().mutable_snapshot()->set_snapshot_complete(true);
    out.back().set_cursor(cursor_at(position_));
}

void WatchSession::fill_part(Stretch& stretch, v1::SnapshotPart& part) {
    parts_.keeper.read(stretch.match, [&](const LiveMatch& match) {
        to_message(match, *part.mutable_match());
        if (!stretch.part_sent && match.profile != nullptr)
            to_message(*match.profile, *part.mutable_profile());
        to_message(match.head, *part.mutable_writer());
    });
    stretch.part_sent = true;
    for (; !entries_.empty() && !stretch.done(); ++stretch.next) {
        v1::EntryBytes& entry = *part.add_entries();
        entry.set_data(*entries_.front().bytes);
        entry.set_signature(entries_.front().signature);
        entries_.pop_front();
    }
    part.set_match_complete(stretch.done());
}

bool WatchSession::watches(const FeedItem& item) const {
    if (const auto* one = std::get_if<MatchId>(&wish_.watched)) return *one == item.match;
    const auto* court = std::get_if<WatchedCourt>(&wish_.watched);
    bool here = false;
    bool writes = false;
    parts_.keeper.read(item.match, [&](const LiveMatch& match) {
        here = match.plan.court == court->court;
        writes = wish_.table && match.head.writer == *wish_.table;
    });
    const bool sent = sent_.contains(item.match);
    if (here || !wish_.table) return here || sent;
    // It has left the court: the table is told so, and nothing more.
    if (item.kind == FeedItem::Kind::described) return writes || sent;
    return writes && item.kind == FeedItem::Kind::ruling;
}

WatchSession::Next WatchSession::more_items() {
    if (page_) {
        pending_.assign(page_->items.begin(), page_->items.end());
        page_.reset();
        if (!pending_.empty()) pending_head_ = pending_.back().position;
        return Next::messages;
    }
    Hub::Taken taken = parts_.hub.take(position_, feed_.era, interest());
    if (taken.where == Hub::Taken::Where::anew) {
        begin_anew();
        return Next::messages;
    }
    if (taken.where == Hub::Taken::Where::behind) return Next::read_store;
    if (taken.items.empty()) {
        position_ = taken.head;
        return Next::wait;
    }
    pending_.assign(taken.items.begin(), taken.items.end());
    pending_head_ = taken.head;
    return Next::messages;
}

void WatchSession::convert(std::vector<v1::WatchResponse>& out) {
    while (!pending_.empty() && !earlier_) {
        const FeedItem& item = pending_.front();
        if (is_of_a_match(item.kind) && watches(item)) {
            if (needs_earlier(item)) return;
            convert(item, out);
        }
        position_ = item.position;
        pending_.pop_front();
    }
    if (!pending_.empty() || earlier_) return;
    position_ = pending_head_;
    if (!out.empty()) out.back().set_cursor(cursor_at(position_));
}

void WatchSession::convert(const FeedItem& item, std::vector<v1::WatchResponse>& out) {
    switch (item.kind) {
        case FeedItem::Kind::entry: {
            EntryNumber& sent = sent_[item.match];
            if (item.number <= sent) return;
            sent = item.number;
            break;
        }
        case FeedItem::Kind::branch:
            break;
        case FeedItem::Kind::described:
            return convert_change(item, out);
        case FeedItem::Kind::ruling:
            return convert_ruling(item, out);
        case FeedItem::Kind::venue:
        case FeedItem::Kind::tournament:
            return;
    }
    add_entry(item.match, item.branch, *item.bytes, item.signature, out);
    // An older cursor would be allowed, a newer one never: items of this page may follow.
    out.back().set_cursor(cursor_at(item.position));
}

// A match that this watch of a court first hears of by one of its later entries: the court was
// given to it meanwhile, or the watch goes on from a cursor, which does not say what was on the
// court then. Sent twice does no harm, missing would.
bool WatchSession::needs_earlier(const FeedItem& item) {
    if (item.kind != FeedItem::Kind::entry || sent_.contains(item.match)) return false;
    if (!std::holds_alternative<WatchedCourt>(wish_.watched) || item.number == 1) return false;
    earlier_ = Stretch{item.match, 1, item.number - 1};
    return true;
}

// With the cursor of what came before: who goes on from there is sent the match from its start.
void WatchSession::send_earlier(std::vector<v1::WatchResponse>& out) {
    Stretch& stretch = *earlier_;
    for (; !entries_.empty() && !stretch.done(); ++stretch.next) {
        add_entry(stretch.match, 0, *entries_.front().bytes, entries_.front().signature, out);
        entries_.pop_front();
    }
    if (!stretch.done()) return;
    sent_[stretch.match] = stretch.last;
    earlier_.reset();
}

void WatchSession::add_entry(MatchId match, std::uint32_t branch, const std::string& bytes,
                             const std::string& signature,
                             std::vector<v1::WatchResponse>& out) const {
    const std::string id = server::to_bytes(match.value);
    const bool joins =
        !out.empty() && out.back().has_entries() && out.back().entries().match_id() == id &&
        out.back().entries().branch() == branch &&
        out.back().entries().entries_size() < static_cast<int>(wire::most_batch_entries);
    if (!joins) {
        v1::EntryBatch& batch = *out.emplace_back().mutable_entries();
        batch.set_match_id(id);
        batch.set_branch(branch);
    }
    v1::EntryBytes& entry = *out.back().mutable_entries()->add_entries();
    entry.set_data(bytes);
    entry.set_signature(signature);
}

void WatchSession::convert_change(const FeedItem& item, std::vector<v1::WatchResponse>& out) {
    const auto* court = std::get_if<WatchedCourt>(&wish_.watched);
    const bool new_here = !sent_.contains(item.match);
    bool left = false;
    parts_.keeper.read(item.match, [&](const LiveMatch& match) {
        left = court != nullptr && wish_.table && match.plan.court != court->court;
        v1::WatchResponse& response = out.emplace_back();
        v1::MatchChange& change = *response.mutable_change();
        to_message(match, *change.mutable_match());
        to_message(match.head, *change.mutable_writer());
        if (match.asked) to_message(*match.asked, *change.mutable_asked());
        response.set_cursor(cursor_at(item.position));
        // A match that came to this court with a record: all of it follows.
        if (!new_here || court == nullptr || left) return;
        response.clear_cursor();
        earlier_ = Stretch{item.match, 1, match.head.last};
        want_rulings(match);
    });
    if (left) sent_.erase(item.match);
}

void WatchSession::convert_ruling(const FeedItem& item, std::vector<v1::WatchResponse>& out) const {
    v1::WatchResponse response;
    if (!item.bytes || !response.mutable_ruling()->ParseFromString(*item.bytes)) return;
    response.set_cursor(cursor_at(item.position));
    out.push_back(std::move(response));
}

Status WatchSession::read_store(MatchStore& store) {
    if (!fresh_) {
        fresh_ = true;
        catch_up_with(store, parts_.tournament, parts_.keeper);
        if (wish_.cursor.empty()) {
            begun_ = true;
            feed_ = parts_.hub.feed();
            begin_snapshot();
        }
        return needs_record() ? read_record(store) : Status::fine();
    }
    if (needs_record()) return read_record(store);
    return to_rule_.empty() ? read_feed(store) : read_rulings(store);
}

Status WatchSession::read_record(MatchStore& store) {
    const Stretch& stretch = snapshot_open_ ? to_snapshot_.front() : *earlier_;
    const auto most =
        std::min<std::size_t>(wire::most_batch_entries, stretch.last - stretch.next + 1);
    auto page = store.read_record({parts_.tournament, stretch.match}, stretch.next - 1, most);
    if (!page.ok()) return page.status();
    entries_.assign(page->begin(), page->end());
    // What was folded is not stored any more: the database was put back. The fold will find out.
    if (entries_.empty())
        return Status::failed(StatusCode::unavailable,
                              "the database was put back; connect again in a moment");
    return Status::fine();
}

Status WatchSession::read_feed(MatchStore& store) {
    FeedQuery query;
    query.tournament = parts_.tournament;
    query.after = position_;
    if (const auto* one = std::get_if<MatchId>(&wish_.watched)) query.matches.push_back(*one);
    auto page = store.read_feed(query);
    if (!page.ok()) return page.status();
    if (cursor_unchecked_) {
        cursor_unchecked_ = false;
        // Nothing in the store is that far: the database was put back from a backup.
        if (page->head < position_) {
            begin_anew();
            return Status::fine();
        }
    }
    if (page->items.size() < query.most) {
        // The page was the last: positions of other matches need not be read again.
        const FeedPosition covered = std::min(page->head, parts_.hub.head());
        if (page->items.empty()) position_ = std::max(position_, covered);
    }
    page_ = std::move(*page);
    return Status::fine();
}

v1::WatchResponse WatchSession::bookmark() const {
    v1::WatchResponse response;
    response.mutable_bookmark();
    response.set_cursor(cursor_at(position_));
    return response;
}

std::string WatchSession::cursor_at(FeedPosition position) const {
    return to_bytes(WatchCursor{feed_.generation, position});
}

}  // namespace courthand::server::service
