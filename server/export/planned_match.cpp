#include "server/export/planned_match.h"

#include <fmt/format.h>

#include <chrono>
#include <utility>

#include "wire/fact_convert.h"
#include "wire/message_limits.h"

namespace courthand::server::exports {
namespace {

/// Further digits on a plan are a mistake.
constexpr std::uint32_t most_number = 1'000'000;

void write(const PlannedTeam& team, v1::MatchTeam& out) {
    if (!team.id.nil()) out.set_team_id(to_bytes(team.id.value));
    out.set_name(team.name);
    out.set_club(team.club);
    out.set_colour(team.colour);
}

PlannedTeam team_of(const v1::MatchTeam& team) {
    PlannedTeam out;
    if (const auto id = uuid_from_bytes(team.team_id())) out.id = TeamId{*id};
    out.name = team.name();
    out.club = team.club();
    out.colour = team.colour();
    return out;
}

std::optional<PlanStatus> status_of(v1::MatchStatus status) {
    if (status == v1::MATCH_STATUS_SCHEDULED) return PlanStatus::scheduled;
    if (status == v1::MATCH_STATUS_CALLED) return PlanStatus::called;
    if (status == v1::MATCH_STATUS_CANCELLED) return PlanStatus::cancelled;
    if (status == v1::MATCH_STATUS_SIGNED) return PlanStatus::confirmed;
    return std::nullopt;
}

v1::MatchStatus message_of(PlanStatus status) {
    if (status == PlanStatus::called) return v1::MATCH_STATUS_CALLED;
    if (status == PlanStatus::confirmed) return v1::MATCH_STATUS_SIGNED;
    return status == PlanStatus::cancelled ? v1::MATCH_STATUS_CANCELLED
                                           : v1::MATCH_STATUS_SCHEDULED;
}

}  // namespace

v1::Match planned(const MatchPlan& plan) {
    v1::Match out;
    out.set_match_id(to_bytes(plan.key.match.value));
    out.set_tournament_id(to_bytes(plan.key.tournament.value));
    out.set_number(plan.number);
    out.set_name(plan.name);
    out.set_court(plan.court);
    write(plan.first, *out.mutable_first());
    write(plan.second, *out.mutable_second());
    wire::to_proto(plan.format, *out.mutable_format());
    out.set_profile_id(plan.profile);
    out.set_profile_hash(plan.profile_hash);
    out.set_status(message_of(plan.status));
    if (plan.scheduled_at)
        out.set_scheduled_us(std::chrono::duration_cast<std::chrono::microseconds>(
                                 plan.scheduled_at->time_since_epoch())
                                 .count());
    return out;
}

Result<MatchPlan> plan_of(const v1::Match& match, TournamentId tournament) {
    const auto refused = [&](const std::string& why) {
        return Status::failed(StatusCode::invalid, fmt::format("match {}: {}", match.number(), why),
                              "export the event again");
    };
    if (const auto broken = wire::limit_broken(match)) return refused(broken->text());
    const auto id = uuid_from_bytes(match.match_id());
    const auto status = status_of(match.status());
    auto format = wire::from_proto(match.format());
    if (!id || match.tournament_id() != to_bytes(tournament.value))
        return refused("it belongs to another tournament");
    if (!status) return refused("its status cannot be read");
    if (match.number() > most_number) return refused("its number is too large");
    if (match.scheduled_us() < 0 || match.scheduled_us() > wire::latest_scheduled_us)
        return refused("its time cannot be");
    if (const auto* why = std::get_if<wire::Unreadable>(&format)) return refused(why->text());
    MatchPlan plan;
    plan.key = {tournament, MatchId{*id}};
    plan.number = match.number();
    plan.name = match.name();
    plan.court = match.court();
    plan.first = team_of(match.first());
    plan.second = team_of(match.second());
    plan.format = std::get<MatchFormat>(format);
    plan.profile = match.profile_id();
    plan.profile_hash = match.profile_hash();
    plan.status = *status;
    if (match.scheduled_us() != 0)
        plan.scheduled_at = ServerTime{std::chrono::duration_cast<ServerTime::duration>(
            std::chrono::microseconds{match.scheduled_us()})};
    // Only a table makes a match without a number in the plan.
    plan.opened_at_table = plan.number == 0;
    return plan;
}

}  // namespace courthand::server::exports
