#include "server/service/push_call.h"

#include <fmt/format.h>

#include "server/service/match_message.h"
#include "server/service/status_map.h"
#include "wire/message_limits.h"

namespace courthand::server::service {
namespace {

Status invalid(std::string why) {
    return Status::failed(StatusCode::invalid, std::move(why));
}

/// A request whose entries have been read: what goes to the store, and what is refused already.
struct ReadPush {
    v1::PushResponse response;  ///< results of refused entries are filled in
    std::vector<AppendItem> items;
    std::vector<int> places;  ///< result of items[i] in the response
    std::optional<MatchPlan> opened_here;
    MatchId match;
};

GrantId grant_of(const v1::WriterEpoch& writer) {
    const auto id = uuid_from_bytes(writer.grant_id());
    return GrantId{id.value_or(Uuid{})};
}

void read_entries(const v1::PushRequest& request, ReadPush& read) {
    for (const v1::EntryBytes& entry : request.entries()) {
        v1::PushResult& result = *read.response.add_results();
        auto item = append_item(entry.data(), read.match, grant_of(request.writer()));
        if (const auto* why = std::get_if<Status>(&item)) {
            result.set_outcome(v1::PushResult::OUTCOME_INVALID);
            result.set_cause(v1::PushResult::CAUSE_UNREADABLE);
            result.set_message(why->text().substr(0, wire::most_remark_bytes));
            continue;
        }
        auto& read_item = std::get<AppendItem>(item);
        if (entry.signature().size() <= wire::most_signature_bytes)
            read_item.signature = entry.signature();
        if (read_item.epoch != request.writer().number()) read_item.grant = GrantId{};
        read.items.push_back(std::move(read_item));
        read.places.push_back(read.response.results_size() - 1);
    }
}

std::variant<ReadPush, Status> read_push(const SyncParts& parts, const v1::PushRequest& request) {
    const auto match = uuid_from_bytes(request.match_id());
    if (!match || match->nil()) return invalid("match_id: must be 16 bytes");
    if (request.entries_size() > static_cast<int>(wire::most_batch_entries))
        return invalid(fmt::format("entries: {} are too many, at most {} in one push",
                                   request.entries_size(), wire::most_batch_entries));
    ReadPush read;
    read.match.value = *match;
    read.response.set_request_number(request.request_number());
    read.response.set_match_id(request.match_id());
    if (request.has_opened_here() && !parts.keeper.read(read.match, [](const LiveMatch&) {})) {
        auto plan = opened_match(request.opened_here(), read.match, parts.tournament);
        if (auto* why = std::get_if<Status>(&plan)) return std::move(*why);
        read.opened_here = std::get<MatchPlan>(std::move(plan));
    }
    read_entries(request, read);
    return read;
}

void set_head(const MatchHead& head, v1::PushResponse& response) {
    response.set_head_seq(head.last);
    response.set_head_hash(to_field(head.hash));
    to_message(head, *response.mutable_writer());
}

/// No entry goes to the store: only the head is asked for.
void answer_with_head(const SyncParts& parts, ReadPush read, const PushAnswer& answer) {
    if (read.opened_here) {
        const auto made = parts.store.create_match(*read.opened_here);
        if (!made.ok() && made.status().code != StatusCode::already_exists)
            return answer(made.status());
    }
    const auto match = parts.store.match({parts.tournament, read.match});
    if (!match.ok()) return answer(match.status());
    set_head(match->head, read.response);
    parts.stamp.fill(*read.response.mutable_header());
    answer(std::move(read.response));
}

void answer_appended(const SyncParts& parts, ReadPush& read,
                     const std::vector<AppendResult>& results, const PushAnswer& answer) {
    for (std::size_t i = 0; i < results.size(); ++i)
        *read.response.mutable_results(read.places[i]) = to_result(read.items[i], results[i]);
    set_head(results.back().head, read.response);
    parts.stamp.fill(*read.response.mutable_header());
    answer(std::move(read.response));
}

}  // namespace

void push(const SyncParts& parts, const v1::PushRequest& request, PushAnswer answer) {
    auto outcome = read_push(parts, request);
    if (auto* why = std::get_if<Status>(&outcome)) return answer(std::move(*why));
    auto read = std::make_shared<ReadPush>(std::get<ReadPush>(std::move(outcome)));
    if (read->items.empty()) {
        const bool taken = parts.work.submit(
            [&parts, read, answer] { answer_with_head(parts, std::move(*read), answer); });
        if (!taken) answer(overloaded());
        return;
    }
    Submission submission;
    submission.tournament = parts.tournament;
    submission.items = read->items;
    submission.opened_here = read->opened_here;
    submission.answer = [&parts, read, answer](Result<std::vector<AppendResult>> results) {
        if (!results.ok()) return answer(results.status());
        answer_appended(parts, *read, *results, answer);
    };
    if (!parts.ingest.submit(std::move(submission))) answer(overloaded());
}

}  // namespace courthand::server::service
