#include "server/service/match_calls.h"

#include <algorithm>

#include "courthand/rules/profile.h"
#include "server/service/catch_up.h"
#include "server/service/match_message.h"
#include "wire/message_limits.h"

namespace courthand::server::service {
namespace {

Status invalid(const char* why) {
    return Status::failed(StatusCode::invalid, why);
}

bool closed(const SyncParts& parts, MatchId id) {
    v1::Match match;
    parts.keeper.read(id, [&](const LiveMatch& live) { to_message(live, match); });
    return match.status() == v1::MATCH_STATUS_SIGNED ||
           match.status() == v1::MATCH_STATUS_CANCELLED;
}

void finish(const SyncParts& parts, const MatchHead& head, v1::GrantWriterResponse::Outcome outcome,
            std::string message, v1::GrantWriterResponse& response) {
    response.set_outcome(outcome);
    to_message(head, *response.mutable_writer());
    response.set_head_seq(head.last);
    response.set_head_hash(to_field(head.hash));
    response.set_message(std::move(message));
    parts.stamp.fill(*response.mutable_header());
}

void add_teams(const SyncParts& parts, const MatchPlan& plan, v1::FetchMatchResponse& response) {
    if (!parts.team) return;
    if (!plan.first.id.nil())
        if (auto team = parts.team(plan.first.id)) *response.mutable_first_roster() = *team;
    if (!plan.second.id.nil())
        if (auto team = parts.team(plan.second.id)) *response.mutable_second_roster() = *team;
}

void add_match(const LiveMatch& match, v1::FetchMatchResponse& response) {
    to_message(match, *response.mutable_match());
    if (match.profile != nullptr) to_message(*match.profile, *response.mutable_profile());
    to_message(match.head, *response.mutable_writer());
    if (match.asked) to_message(*match.asked, *response.mutable_asked());
    response.set_head_seq(match.head.last);
    response.set_head_hash(to_field(match.head.hash));
}

/// From the store, outside the lock of the fold; nothing that is not folded yet.
Status add_entries(const SyncParts& parts, MatchId match, EntryNumber after,
                   v1::FetchMatchResponse& response) {
    if (after >= response.head_seq()) return Status::fine();
    const auto most = std::min<std::size_t>(wire::most_batch_entries, response.head_seq() - after);
    const auto page = parts.store.read_record({parts.tournament, match}, after, most);
    if (!page.ok()) return page.status();
    for (const StoredEntry& entry : *page) {
        v1::EntryBytes& out = *response.add_entries();
        out.set_data(*entry.bytes);
        out.set_signature(entry.signature);
    }
    return Status::fine();
}

}  // namespace

std::variant<v1::GrantWriterResponse, Status> grant_writer(const SyncParts& parts, DeviceId device,
                                                           const v1::GrantWriterRequest& request) {
    using Response = v1::GrantWriterResponse;
    const auto match = uuid_from_bytes(request.match_id());
    if (!match || match->nil()) return invalid("match_id: must be 16 bytes");
    const MatchKey key{parts.tournament, MatchId{*match}};
    const auto before = parts.store.match(key);
    if (!before.ok()) return before.status();
    Response response;
    if (closed(parts, key.match)) {
        finish(parts, before->head, Response::OUTCOME_CLOSED, "the match is signed or cancelled",
               response);
        return response;
    }
    GrantWish wish;
    wish.key = key;
    wish.device = device;
    wish.reason = "asked by the device";
    if (request.take_over() && parts.withdrawn && before->head.epoch != 0 &&
        parts.withdrawn(before->head.writer)) {
        wish.how = GrantWish::How::taken_over;
        wish.reason = "the desk has withdrawn the device that wrote";
    }
    const auto granted = parts.store.grant_writer(wish);
    if (granted.ok()) {
        const bool same = *granted == before->head;
        finish(parts, *granted, same ? Response::OUTCOME_ALREADY_YOURS : Response::OUTCOME_GRANTED,
               {}, response);
        return response;
    }
    if (granted.status().code != StatusCode::conflict) return granted.status();
    const char* cure =
        request.take_over()
            ? "another device writes this match; the desk must withdraw it before it is taken over"
            : "another device writes this match; hand it over there, or take it over";
    finish(parts, before->head, Response::OUTCOME_HELD_BY_OTHER, cure, response);
    return response;
}

std::variant<v1::FetchMatchResponse, Status> fetch_match(const SyncParts& parts,
                                                         const v1::FetchMatchRequest& request) {
    catch_up_with(parts.store, parts.tournament, parts.keeper);
    v1::FetchMatchResponse response;
    MatchId wanted;
    std::vector<MatchId> following;
    if (request.which_case() == v1::FetchMatchRequest::kMatchId) {
        const auto id = uuid_from_bytes(request.match_id());
        if (!id || id->nil()) return invalid("match_id: must be 16 bytes");
        wanted.value = *id;
    } else if (request.which_case() == v1::FetchMatchRequest::kCourt) {
        if (request.court() == 0 || request.court() > wire::most_courts)
            return invalid("court: must be 1 to 1000");
        following = parts.keeper.on_court(request.court());
        if (!following.empty()) {
            wanted = following.front();
            following.erase(following.begin());
        }
    } else {
        return invalid("say which match: match_id or court");
    }
    parts.stamp.fill(*response.mutable_header());
    if (wanted.nil()) return response;
    MatchPlan plan;
    const bool known = parts.keeper.read(wanted, [&](const LiveMatch& match) {
        plan = match.plan;
        add_match(match, response);
    });
    if (!known) return Status::failed(StatusCode::not_found, "the match is not known here");
    if (Status read = add_entries(parts, wanted, request.after_seq(), response); !read.ok())
        return read;
    for (const MatchId next : following) {
        if (response.following_size() == static_cast<int>(wire::most_following)) break;
        parts.keeper.read(
            next, [&](const LiveMatch& match) { to_message(match, *response.add_following()); });
    }
    add_teams(parts, plan, response);
    return response;
}

}  // namespace courthand::server::service
