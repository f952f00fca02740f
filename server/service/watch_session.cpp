#include "server/service/watch_session.h"

#include <algorithm>

#include "courthand/rules/profile.h"
#include "server/service/catch_up.h"
#include "server/service/match_message.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

std::variant<WatchWish, Status> watch_wish(const v1::WatchRequest& request) {
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
        case v1::WatchRequest::kWholeVenue:
            if (!request.whole_venue()) return invalid("whole_venue: must be true when it is set");
            wish.watched = WholeVenue{};
            return wish;
        case v1::WatchRequest::WHAT_NOT_SET:
            break;
    }
    return invalid("say what to watch: match_id, court or whole_venue");
}

WatchSession::Next WatchSession::next(std::vector<v1::WatchResponse>& out) {
    if (!fresh_) return Next::read_store;
    const std::size_t before = out.size();
    if (!begun_) begin(out);
    if (cursor_unchecked_) return out.size() > before ? Next::messages : Next::read_store;
    if (snapshot_open_) {
        snapshot_match(out);
        return Next::messages;
    }
    while (out.size() == before) {
        std::vector<FeedItem> items;
        FeedPosition head = position_;
        if (page_) {
            items = std::move(page_->items);
            page_.reset();
            if (items.empty()) continue;
            head = items.back().position;
        } else {
            Hub::Taken taken = parts_.hub.take(position_);
            if (taken.where == Hub::Taken::Where::behind) return Next::read_store;
            items = std::move(taken.items);
            head = taken.head;
        }
        if (items.empty()) {
            position_ = head;
            return Next::wait;
        }
        convert(items, out);
        position_ = head;
    }
    out.back().set_cursor(cursor_at(position_));
    return Next::messages;
}

void WatchSession::begin(std::vector<v1::WatchResponse>& out) {
    begun_ = true;
    if (wish_.cursor.empty()) return begin_snapshot();
    const auto cursor = watch_cursor(wish_.cursor);
    const FeedPosition head = parts_.hub.head();
    if (cursor && cursor->generation == parts_.generation &&
        cursor->position + most_items_behind >= head) {
        position_ = cursor->position;
        cursor_unchecked_ = position_ > head;
        return;
    }
    v1::WatchResponse response;
    response.mutable_resync()->set_message(
        !cursor || cursor->generation != parts_.generation
            ? "the cursor is of another feed; everything is sent anew"
            : "the cursor is too old; everything is sent anew");
    out.push_back(std::move(response));
    begin_snapshot();
}

void WatchSession::begin_snapshot() {
    snapshot_open_ = true;
    const auto* court = std::get_if<WatchedCourt>(&wish_.watched);
    const std::vector<MatchId> on_court =
        court != nullptr ? parts_.keeper.on_court(court->court) : std::vector<MatchId>{};
    position_ = parts_.keeper.read_at([&](std::span<const LiveMatch* const> all) {
        for (const LiveMatch* match : all) {
            const auto* one = std::get_if<MatchId>(&wish_.watched);
            const bool wanted = court != nullptr ? std::find(on_court.begin(), on_court.end(),
                                                             match->key.match) != on_court.end()
                                                 : one == nullptr || *one == match->key.match;
            if (!wanted) continue;
            to_snapshot_.push_back({match->key.match, match->head.last});
            sent_[match->key.match] = match->head.last;
        }
    });
}

void WatchSession::snapshot_match(std::vector<v1::WatchResponse>& out) {
    if (!to_snapshot_.empty()) {
        const ToSnapshot next = to_snapshot_.front();
        to_snapshot_.pop_front();
        parts_.keeper.read(next.match,
                           [&](const LiveMatch& match) { add_parts(match, next.last, out); });
    } else if (out.empty() || !out.back().has_snapshot()) {
        out.emplace_back();
    }
    if (!to_snapshot_.empty()) return;
    snapshot_open_ = false;
    out.back().mutable_snapshot()->set_snapshot_complete(true);
    out.back().set_cursor(cursor_at(position_));
}

void WatchSession::add_parts(const LiveMatch& match, EntryNumber last,
                             std::vector<v1::WatchResponse>& out) const {
    EntryNumber sent = 0;
    do {
        v1::SnapshotPart& part = *out.emplace_back().mutable_snapshot();
        to_message(match, *part.mutable_match());
        if (sent == 0 && match.profile != nullptr)
            to_message(*match.profile, *part.mutable_profile());
        to_message(match.head, *part.mutable_writer());
        for (; sent < last && part.entries_size() < static_cast<int>(wire::most_batch_entries);
             ++sent)
            part.add_entries()->set_data(*match.bytes[sent]);
        part.set_match_complete(sent == last);
    } while (sent < last);
}

bool WatchSession::watches(MatchId match) const {
    if (const auto* one = std::get_if<MatchId>(&wish_.watched)) return *one == match;
    const auto* court = std::get_if<WatchedCourt>(&wish_.watched);
    if (court == nullptr) return true;
    if (sent_.contains(match)) return true;
    bool here = false;
    parts_.keeper.read(match, [&](const LiveMatch& m) { here = m.plan.court == court->court; });
    return here;
}

void WatchSession::convert(const std::vector<FeedItem>& items,
                           std::vector<v1::WatchResponse>& out) {
    for (const FeedItem& item : items) {
        if (item.kind == FeedItem::Kind::venue || !watches(item.match)) continue;
        switch (item.kind) {
            case FeedItem::Kind::entry:
                convert_entry(item, out);
                break;
            case FeedItem::Kind::branch:
                add_entry(item, out);
                break;
            case FeedItem::Kind::described:
                convert_change(item, out);
                break;
            case FeedItem::Kind::ruling:
                convert_ruling(item, out);
                break;
            case FeedItem::Kind::venue:
                break;
        }
    }
}

void WatchSession::convert_entry(const FeedItem& item, std::vector<v1::WatchResponse>& out) {
    EntryNumber& sent = sent_[item.match];
    if (item.number <= sent) return;
    sent = item.number;
    add_entry(item, out);
}

void WatchSession::add_entry(const FeedItem& item, std::vector<v1::WatchResponse>& out) const {
    const std::string match = server::to_bytes(item.match.value);
    const bool joins =
        !out.empty() && out.back().has_entries() && out.back().entries().match_id() == match &&
        out.back().entries().branch() == item.branch &&
        out.back().entries().entries_size() < static_cast<int>(wire::most_batch_entries);
    if (!joins) {
        v1::EntryBatch& batch = *out.emplace_back().mutable_entries();
        batch.set_match_id(match);
        batch.set_branch(item.branch);
    }
    out.back().mutable_entries()->add_entries()->set_data(*item.bytes);
    // An older cursor would be allowed, a newer one never: items of this page may follow.
    out.back().set_cursor(cursor_at(item.position));
}

void WatchSession::convert_change(const FeedItem& item, std::vector<v1::WatchResponse>& out) {
    const bool new_here = !sent_.contains(item.match);
    parts_.keeper.read(item.match, [&](const LiveMatch& match) {
        v1::WatchResponse& response = out.emplace_back();
        to_message(match, *response.mutable_change()->mutable_match());
        to_message(match.head, *response.mutable_change()->mutable_writer());
        response.set_cursor(cursor_at(item.position));
        // A match that came to this court with a record: all of it follows.
        if (!new_here || !std::holds_alternative<WatchedCourt>(wish_.watched)) return;
        FeedItem entry = item;
        for (EntryNumber n = 1; n <= match.head.last; ++n) {
            entry.bytes = match.bytes[n - 1];
            add_entry(entry, out);
        }
        sent_[item.match] = match.head.last;
    });
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
        return Status::fine();
    }
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
            wish_.cursor = to_bytes(WatchCursor{});
            begun_ = false;
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
    return to_bytes(WatchCursor{parts_.generation, position});
}

}  // namespace courthand::server::service
