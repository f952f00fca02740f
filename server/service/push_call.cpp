#include "server/service/push_call.h"

#include <fmt/format.h>

#include <algorithm>

#include "server/auth/entry_signature.h"
#include "server/domain/fault_log.h"
#include "server/service/match_message.h"
#include "server/service/status_map.h"
#include "wire/message_limits.h"

namespace courthand::server::service {
namespace {

Status invalid(std::string why, std::string cure = {}) {
    return Status::failed(StatusCode::invalid, std::move(why), std::move(cure));
}

/// A request whose entries have been read: what goes to the store, and what is refused already.
struct ReadPush {
    auth::Caller who;
    v1::PushResponse response;  ///< results of refused entries are filled in
    struct Sent {
        EntryId id{};
        Hash hash{};
    };
    std::vector<Sent> sent;  ///< of each result; nil: not readable
    std::vector<AppendItem> items;
    std::vector<int> places;  ///< result of items[i] in the response
    std::optional<MatchPlan> opened_here;
    MatchId match;
    Reach reach = Reach::not_decided;
    bool handed_on = false;  ///< some entries are of another device, and signed
};

GrantId grant_of(const v1::WriterEpoch& writer) {
    const auto id = uuid_from_bytes(writer.grant_id());
    return GrantId{id.value_or(Uuid{})};
}

void refuse(Cause cause, const std::string& why, v1::PushResult& result) {
    result.set_outcome(v1::PushResult::OUTCOME_INVALID);
    result.set_cause(to_message(cause));
    result.set_message(why.substr(0, wire::most_remark_bytes));
}

void refuse(const AppendItem& item, Cause cause, const std::string& why, v1::PushResult& result) {
    refuse(cause, why, result);
    result.set_entry_id(to_bytes(item.id.value));
    result.set_seq(item.number);
}

constexpr const char* not_signed =
    "another device made this entry and did not sign it; it must send the entry itself";
constexpr const char* badly_signed =
    "another device made this entry, and its signature does not fit the device's key; that device "
    "must send the entry itself";

void read_entries(const v1::PushRequest& request, ReadPush& read) {
    for (const v1::EntryBytes& entry : request.entries()) {
        v1::PushResult& result = *read.response.add_results();
        auto item = append_item(entry.data(), read.match, grant_of(request.writer()));
        if (!item.ok()) {
            refuse(Cause::unreadable, item.status().text(), result);
            read.sent.emplace_back();
            continue;
        }
        AppendItem& read_item = *item;
        read.sent.push_back({read_item.id, read_item.hash});
        if (entry.signature().size() <= wire::most_signature_bytes)
            read_item.signature = entry.signature();
        if (read_item.device != read.who.device) {
            if (read_item.signature.empty()) {
                refuse(read_item, Cause::not_its_device, not_signed, result);
                continue;
            }
            read.handed_on = true;
        }
        if (read_item.epoch != request.writer().number()) read_item.grant = GrantId{};
        read.items.push_back(std::move(read_item));
        read.places.push_back(read.response.results_size() - 1);
    }
}

Result<ReadPush> read_push(const SyncParts& parts, const auth::Caller& who,
                           const v1::PushRequest& request) {
    const auto match = uuid_from_bytes(request.match_id());
    if (!match || match->nil()) return invalid("match_id: must be 16 bytes");
    if (request.entries_size() > static_cast<int>(wire::most_batch_entries))
        return invalid(fmt::format("entries: {} are too many, at most {} in one push",
                                   request.entries_size(), wire::most_batch_entries));
    ReadPush read;
    read.who = who;
    read.match.value = *match;
    read.reach = parts.rights.reach(who, read.match);
    read.response.set_request_number(request.request_number());
    read.response.set_match_id(request.match_id());
    if (request.has_opened_here() && !parts.keeper.read(read.match, [](const LiveMatch&) {})) {
        auto plan = opened_match(request.opened_here(), read.match, parts.tournament);
        if (!plan.ok()) return plan.status();
        read.opened_here = *std::move(plan);
    }
    read_entries(request, read);
    return read;
}

void set_head(const MatchHead& head, v1::PushResponse& response) {
    response.set_head_seq(head.last);
    response.set_head_hash(to_field(head.hash));
    to_message(head, *response.mutable_writer());
}

/// Remembers what was refused, for the people who can help, and for the audit what one device tried
/// in the name or the place of another.
void note(const SyncParts& parts, const ReadPush& read) {
    const auto& results = read.response.results();
    bool waits = false;
    for (int i = 0; i < results.size(); ++i) {
        const v1::PushResult& result = results[i];
        waits |= result.outcome() == v1::PushResult::OUTCOME_GAP;
        if (result.outcome() != v1::PushResult::OUTCOME_INVALID) continue;
        const Cause cause = cause_of(result.cause());
        const ReadPush::Sent& sent = read.sent[static_cast<std::size_t>(i)];
        parts.refusals.refused({read.match, read.who.device, read.who.court, result.seq(), cause,
                                result.message(), std::chrono::system_clock::now(), sent.id,
                                sent.hash});
        if (cause == Cause::not_its_device || cause == Cause::other_court)
            parts.audit.refused(
                to_text(read.who.device),
                {0, {}, read.who, "push", to_text(read.match), result.message(), true});
        return;
    }
    if (!results.empty() && !waits) parts.refusals.taken(read.match, read.who.device);
}

void finish(const SyncParts& parts, ReadPush& read, const PushAnswer& answer) {
    parts.stamp.fill(*read.response.mutable_header());
    note(parts, read);
    answer(std::move(read.response));
}

/// No entry goes to the store: only the head is asked for.
void answer_with_head(const SyncParts& parts, ReadPush& read, const PushAnswer& answer) {
    if (read.opened_here) {
        const auto made = parts.store.create_match(*read.opened_here);
        if (!made.ok() && made.status().code != StatusCode::already_exists)
            return answer(made.status());
    }
    // What is told of here counts as kept: an append of nothing waits until it is.
    const auto kept = parts.store.append(parts.tournament, {});
    if (!kept.ok()) return answer(kept.status());
    const auto match = parts.store.match({parts.tournament, read.match});
    if (!match.ok()) return answer(match.status());
    set_head(match->head, read.response);
    finish(parts, read, answer);
}

void answer_appended(const SyncParts& parts, ReadPush& read,
                     const std::vector<AppendResult>& results, const PushAnswer& answer) {
    for (std::size_t i = 0; i < results.size(); ++i)
        *read.response.mutable_results(read.places[i]) = to_result(read.items[i], results[i]);
    set_head(results.back().head, read.response);
    finish(parts, read, answer);
}

/// Whatever goes wrong in `body` costs this push alone.
template <class Body>
void guarded(const PushAnswer& answer, const Body& body) {
    try {
        body();
    } catch (...) {
        log_current_exception("push");
        answer(own_fault());
    }
}

/// Nothing of the push may be written: says so for each entry that could be read.
void refuse_all(const SyncParts& parts, ReadPush& read, const Status& why,
                const PushAnswer& answer) {
    const Cause cause = why.code == StatusCode::exhausted ? Cause::full : Cause::other_court;
    for (std::size_t i = 0; i < read.items.size(); ++i)
        refuse(read.items[i], cause, why.text(), *read.response.mutable_results(read.places[i]));
    if (!read.response.results().empty()) return finish(parts, read, answer);
    parts.audit.refused(to_text(read.who.device),
                        {0, {}, read.who, "push", to_text(read.match), why.text(), true});
    answer(why);
}

/// Entries of other devices stay only when they are signed by those devices. A failure is that of
/// the store, which knows their keys.
Status check_signatures(const SyncParts& parts, ReadPush& read) {
    std::map<DeviceId, std::string> keys;
    std::vector<AppendItem> kept;
    std::vector<int> places;
    for (std::size_t i = 0; i < read.items.size(); ++i) {
        AppendItem& item = read.items[i];
        if (item.device != read.who.device) {
            const auto [key, fresh] = keys.try_emplace(item.device);
            if (fresh && parts.key_of) {
                auto known = parts.key_of(item.device);
                if (!known.ok()) return known.status();
                key->second = *std::move(known);
            }
            if (!auth::signed_by(key->second, *item.bytes, item.signature)) {
                refuse(item, Cause::not_its_device, badly_signed,
                       *read.response.mutable_results(read.places[i]));
                continue;
            }
        }
        kept.push_back(std::move(item));
        places.push_back(read.places[i]);
    }
    read.items = std::move(kept);
    read.places = std::move(places);
    return Status::fine();
}

void append(const SyncParts& parts, const std::shared_ptr<ReadPush>& read,
            const PushAnswer& answer) {
    Submission submission;
    submission.tournament = parts.tournament;
    submission.items = read->items;
    submission.opened_here = read->opened_here;
    submission.answer = [&parts, read, answer](Result<std::vector<AppendResult>> results) {
        if (!results.ok()) return answer(results.status());
        guarded(answer, [&] { answer_appended(parts, *read, *results, answer); });
    };
    if (!parts.ingest.submit(std::move(submission))) answer(overloaded());
}

/// The same for a match that may rest: its record is read before its next entry comes to the fold.
/// May wait for the database.
void wake_and_append(const SyncParts& parts, const std::shared_ptr<ReadPush>& read,
                     const PushAnswer& answer) {
    if (parts.waking.wanted(read->match)) parts.waking.prepare(read->match);
    append(parts, read, answer);
}

/// What may wait for the database before the entries can go their way.
void settle(const SyncParts& parts, const std::shared_ptr<ReadPush>& read,
            const PushAnswer& answer) {
    const Result<Reach> reach = parts.rights.settled_reach(read->who, read->match);
    if (!reach.ok()) return answer(reach.status());
    if (*reach == Reach::other_court)
        return refuse_all(parts, *read, another_court(read->who), answer);
    // Only a match that the store does not know either may be opened by a table: one of the desk
    // keeps its court, also before this server has heard of it.
    if (*reach == Reach::unknown_match && read->opened_here)
        if (const Status opening = parts.rights.open(read->who, *read->opened_here); !opening.ok())
            return refuse_all(parts, *read, opening, answer);
    if (read->handed_on)
        if (const Status checked = check_signatures(parts, *read); !checked.ok())
            return answer(checked);
    if (read->items.empty()) return answer_with_head(parts, *read, answer);
    wake_and_append(parts, read, answer);
}

}  // namespace

void push(const SyncParts& parts, const auth::Caller& who, const v1::PushRequest& request,
          const PushAnswer& answer) {
    guarded(answer, [&] {
        const auto entries = static_cast<std::size_t>(request.entries_size());
        if (!parts.ingest.has_room(std::min(entries, wire::most_batch_entries)))
            return answer(overloaded());
        auto outcome = read_push(parts, who, request);
        if (!outcome.ok()) return answer(outcome.status());
        auto read = std::make_shared<ReadPush>(*std::move(outcome));
        const bool settled =
            read->reach == Reach::granted && !read->handed_on && !read->items.empty();
        const bool rests = settled && parts.waking.wanted(read->match);
        if (settled && !rests) return append(parts, read, answer);
        const auto next = rests ? wake_and_append : settle;
        const Lane lane = rests ? Lane::catch_up : Lane::reads;
        const bool taken = parts.work.submit(lane, [&parts, read, answer, next] {
            guarded(answer, [&] { next(parts, read, answer); });
        });
        if (!taken) answer(overloaded());
    });
}

}  // namespace courthand::server::service
