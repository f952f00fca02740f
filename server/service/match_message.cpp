#include "server/service/match_message.h"

#include <chrono>
#include <cstring>

#include "courthand/rules/profile.h"
#include "wire/fact_convert.h"
#include "wire/message_limits.h"
#include "wire/read_entry.h"

namespace courthand::server::service {
namespace {

v1::MatchStatus status_of(const LiveMatch& match) {
    if (match.plan.status == PlanStatus::cancelled) return v1::MATCH_STATUS_CANCELLED;
    if (match.plan.status == PlanStatus::confirmed) return v1::MATCH_STATUS_SIGNED;
    if (match.state.set.stage == Stage::match_over)
        return match.closed() ? v1::MATCH_STATUS_SIGNED : v1::MATCH_STATUS_FINISHED;
    if (match.head.last > 0) return v1::MATCH_STATUS_IN_PLAY;
    return match.plan.status == PlanStatus::called ? v1::MATCH_STATUS_CALLED
                                                   : v1::MATCH_STATUS_SCHEDULED;
}

void to_message(const PlannedTeam& team, v1::MatchTeam& out) {
    if (!team.id.nil()) out.set_team_id(to_bytes(team.id.value));
    out.set_name(team.name);
    out.set_club(team.club);
    out.set_colour(team.colour);
}

PlannedTeam planned_team(const v1::MatchTeam& team) {
    PlannedTeam planned;
    if (const auto id = uuid_from_bytes(team.team_id())) planned.id.value = *id;
    planned.name = team.name();
    planned.club = team.club();
    planned.colour = team.colour();
    return planned;
}

Status unreadable(std::string why) {
    return Status::failed(StatusCode::invalid, std::move(why));
}

v1::PushResult::Outcome outcome_of(Fate fate) {
    switch (fate) {
        case Fate::appended:
            return v1::PushResult::OUTCOME_APPENDED;
        case Fate::already_had:
            return v1::PushResult::OUTCOME_ALREADY_HAD;
        case Fate::branched:
            return v1::PushResult::OUTCOME_STORED_ON_BRANCH;
        case Fate::invalid:
            return v1::PushResult::OUTCOME_INVALID;
        case Fate::gap:
            return v1::PushResult::OUTCOME_GAP;
    }
    return v1::PushResult::OUTCOME_UNSPECIFIED;
}

}  // namespace

std::string to_field(const Hash& hash) {
    return {reinterpret_cast<const char*>(hash.data()), hash.size()};
}

void to_message(const LiveMatch& match, v1::Match& out) {
    out.set_match_id(to_bytes(match.key.match.value));
    out.set_tournament_id(to_bytes(match.key.tournament.value));
    out.set_number(match.plan.number);
    out.set_name(match.plan.name);
    out.set_court(match.plan.court);
    to_message(match.plan.first, *out.mutable_first());
    to_message(match.plan.second, *out.mutable_second());
    wire::to_proto(match.plan.format, *out.mutable_format());
    out.set_profile_id(match.plan.profile);
    out.set_profile_hash(match.plan.profile_hash);
    out.set_status(status_of(match));
    if (match.plan.scheduled_at)
        out.set_scheduled_us(std::chrono::duration_cast<std::chrono::microseconds>(
                                 match.plan.scheduled_at->time_since_epoch())
                                 .count());
}

void to_message(const MatchHead& head, v1::WriterEpoch& out) {
    out.set_number(head.epoch);
    if (head.epoch == 0) return;
    out.set_grant_id(to_bytes(head.grant.value));
    out.set_device_id(to_bytes(head.writer.value));
    out.set_self_granted(head.self_granted);
}

void to_message(const TakeOverAsked& asked, v1::TakeOverAsked& out) {
    out.set_device_id(to_bytes(asked.device.value));
    out.set_asked_us(
        std::chrono::duration_cast<std::chrono::microseconds>(asked.at.time_since_epoch()).count());
}

void to_message(const Profile& profile, v1::Profile& out) {
    out.set_profile_id(profile.id);
    out.set_title(profile.title);
    out.set_hash(profile.hash);
    out.set_text(profile_text(profile.id));
}

Result<MatchPlan> opened_match(const v1::Match& match, MatchId id, TournamentId tournament) {
    if (const auto broken = wire::limit_broken(match))
        return unreadable("opened_here: " + broken->text());
    if (match.match_id() != to_bytes(id.value))
        return unreadable("opened_here.match_id: differs from match_id of the request");
    auto format = wire::from_proto(match.format());
    if (const auto* why = std::get_if<wire::Unreadable>(&format))
        return unreadable("opened_here.format: " + why->text());
    MatchPlan plan;
    plan.key = {tournament, id};
    plan.court = match.court();
    plan.first = planned_team(match.first());
    plan.second = planned_team(match.second());
    plan.format = std::get<MatchFormat>(format);
    plan.profile = match.profile_id();
    plan.profile_hash = match.profile_hash();
    plan.opened_at_table = true;
    return plan;
}

Result<AppendItem> append_item(const std::string& bytes, MatchId match, GrantId grant) {
    auto arrived = wire::read_arriving_entry(bytes);
    if (const auto* why = std::get_if<wire::Unreadable>(&arrived)) return unreadable(why->text());
    const auto read =
        std::make_shared<const wire::ReadEntry>(std::get<wire::ReadEntry>(std::move(arrived)));
    const wire::EntryHeader& header = read->header();
    AppendItem item;
    item.match = match;
    item.id.value.bytes = header.entry_id.bytes();
    item.device.value.bytes = header.device_id.bytes();
    if (item.id.nil()) return unreadable("entry_id: must be 16 bytes");
    if (item.device.nil()) return unreadable("device_id: must be 16 bytes");
    if (header.match_id.bytes() != match.value.bytes)
        return unreadable("match_id: differs from match_id of the request");
    if (header.epoch == 0) return unreadable("epoch: 0 is no writer epoch");
    item.epoch = header.epoch;
    item.grant = grant;
    item.number = header.seq;
    item.previous = header.prev_hash;
    item.hash = read->hash();
    item.bytes = read->shared_bytes();
    item.read = read;
    return item;
}

v1::PushResult::Cause to_message(Cause cause) {
    switch (cause) {
        case Cause::none:
            return v1::PushResult::CAUSE_UNSPECIFIED;
        case Cause::unreadable:
            return v1::PushResult::CAUSE_UNREADABLE;
        case Cause::unknown_match:
            return v1::PushResult::CAUSE_UNKNOWN_MATCH;
        case Cause::not_its_device:
            return v1::PushResult::CAUSE_NOT_ITS_DEVICE;
        case Cause::other_court:
            return v1::PushResult::CAUSE_OTHER_COURT;
        case Cause::id_used:
            return v1::PushResult::CAUSE_ID_USED;
        case Cause::full:
            return v1::PushResult::CAUSE_FULL;
    }
    return v1::PushResult::CAUSE_UNSPECIFIED;
}

Cause cause_of(v1::PushResult::Cause cause) {
    for (const Cause one : {Cause::unreadable, Cause::unknown_match, Cause::not_its_device,
                            Cause::other_court, Cause::id_used, Cause::full})
        if (to_message(one) == cause) return one;
    return Cause::none;
}

v1::PushResult to_result(const AppendItem& item, const AppendResult& result) {
    v1::PushResult out;
    out.set_entry_id(to_bytes(item.id.value));
    out.set_seq(item.number);
    out.set_outcome(outcome_of(result.fate));
    out.set_message(result.message);
    out.set_branch(result.branch);
    out.set_cause(to_message(result.cause));
    return out;
}

}  // namespace courthand::server::service
