#include "server/service/match_calls.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

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

audit::AuditEntry row_of(const auth::Caller& who, const char* act, MatchId match,
                         std::string detail) {
    return {0, {}, who, act, to_text(match), std::move(detail), false};
}

Status refused(const SyncParts& parts, const auth::Caller& who, MatchId match, const char* act) {
    Status why = another_court(who);
    parts.audit.refused(to_text(who.device), {0, {}, who, act, to_text(match), why.text(), true});
    return why;
}

/// Only at the court of the match, or on the device that writes it already.
bool may_write(const auth::Caller& who, const StoredMatch& match) {
    const bool here = match.plan.court != 0 && match.plan.court == who.court;
    return here || (match.head.epoch != 0 && match.head.writer == who.device);
}

Result<GrantWish> grant_wish(const SyncParts& parts, const auth::Caller& who,
                             const StoredMatch& match, bool take_over) {
    GrantWish wish;
    wish.key = match.plan.key;
    wish.device = who.device;
    wish.reason = "asked by the device";
    if (!take_over || !parts.withdrawn || match.head.epoch == 0) return wish;
    const Result<bool> withdrawn = parts.withdrawn(match.head.writer);
    if (!withdrawn.ok()) return withdrawn.status();
    if (*withdrawn) {
        wish.how = GrantWish::How::taken_over;
        wish.reason = "the desk has withdrawn the device that wrote";
    }
    return wish;
}

Result<v1::GrantWriterResponse> ask_take_over(const SyncParts& parts, const auth::Caller& who,
                                              const StoredMatch& match) {
    audit::AuditTrail::Act act{parts.audit,
                               row_of(who, "ask-take-over", match.plan.key.match,
                                      "in the place of device " + to_text(match.head.writer))};
    const auto asked = parts.store.ask_take_over(match.plan.key, who.device);
    if (!asked.ok()) return asked.status();
    v1::GrantWriterResponse response;
    if (asked->asked && asked->asked->device != who.device) {
        finish(parts, asked->head, v1::GrantWriterResponse::OUTCOME_HELD_BY_OTHER,
               "another device asks to go on with this match; wait for the answer of the desk or "
               "the head official, or ask again in a minute",
               response);
        return response;
    }
    const bool again = match.asked && match.asked->device == who.device;
    if (!again) act.done();
    finish(parts, asked->head, v1::GrantWriterResponse::OUTCOME_ASKED,
           "another device writes this match; the desk or the head official is asked", response);
    return response;
}

/// Leaves `out` as it is where there is no such team.
Status add_team(const SyncParts& parts, TeamId id, v1::Team* (v1::FetchMatchResponse::*out)(),
                v1::FetchMatchResponse& response) {
    if (!parts.team || id.nil()) return Status::fine();
    auto team = parts.team(id);
    if (!team.ok()) return team.status();
    if (*team) *(response.*out)() = **std::move(team);
    return Status::fine();
}

Status add_teams(const SyncParts& parts, const MatchPlan& plan, v1::FetchMatchResponse& response) {
    using Response = v1::FetchMatchResponse;
    if (Status first = add_team(parts, plan.first.id, &Response::mutable_first_roster, response);
        !first.ok())
        return first;
    return add_team(parts, plan.second.id, &Response::mutable_second_roster, response);
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

Result<v1::GrantWriterResponse> grant_writer(const SyncParts& parts, const auth::Caller& who,
                                             const v1::GrantWriterRequest& request) {
    using Response = v1::GrantWriterResponse;
    const auto match = uuid_from_bytes(request.match_id());
    if (!match || match->nil()) return invalid("match_id: must be 16 bytes");
    const MatchKey key{parts.tournament, MatchId{*match}};
    const auto before = parts.store.match(key);
    if (!before.ok()) return before.status();
    if (!may_write(who, *before)) return refused(parts, who, key.match, "grant");
    Response response;
    if (closed(parts, key.match)) {
        finish(parts, before->head, Response::OUTCOME_CLOSED, "the match is signed or cancelled",
               response);
        return response;
    }
    const Result<GrantWish> wished = grant_wish(parts, who, *before, request.take_over());
    if (!wished.ok()) return wished.status();
    const GrantWish& wish = *wished;
    std::optional<audit::AuditTrail::Act> act{std::in_place, parts.audit,
                                              row_of(who, "grant", key.match, wish.reason)};
    const auto granted = parts.store.grant_writer(wish);
    if (granted.ok()) {
        // Its record may have grown meanwhile.
        const bool same =
            granted->epoch == before->head.epoch && granted->grant == before->head.grant;
        if (!same) act->done();
        finish(parts, *granted, same ? Response::OUTCOME_ALREADY_YOURS : Response::OUTCOME_GRANTED,
               {}, response);
        return response;
    }
    act.reset();
    if (granted.status().code != StatusCode::conflict) return granted.status();
    if (request.take_over()) return ask_take_over(parts, who, *before);
    finish(parts, before->head, Response::OUTCOME_HELD_BY_OTHER,
           "another device writes this match; hand it over there, or ask to take it over",
           response);
    return response;
}

Result<v1::FetchMatchResponse> fetch_match(const SyncParts& parts, const auth::Caller& who,
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
        if (who.seat == auth::Seat::table && request.court() != who.court)
            return refused(parts, who, wanted, "fetch");
        following = parts.keeper.on_court(request.court());
        if (!following.empty()) {
            wanted = following.front();
            following.erase(following.begin());
        }
    } else {
        return invalid("say which match: match_id or court");
    }
    if (!wanted.nil()) {
        const Result<Reach> reach = parts.rights.settled_reach(who, wanted);
        if (!reach.ok()) return reach.status();
        if (*reach == Reach::other_court) return refused(parts, who, wanted, "fetch");
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
    if (Status added = add_teams(parts, plan, response); !added.ok()) return added;
    return response;
}

}  // namespace courthand::server::service
