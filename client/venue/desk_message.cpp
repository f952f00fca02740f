#include "venue/desk_message.h"

#include <algorithm>

#include "venue/board_message.h"
#include "wire/signers.h"

namespace courthand::venue {

namespace {

std::optional<Moment> maybe_moment(std::int64_t us) {
    return us == 0 ? std::nullopt : std::optional{moment_of_us(us)};
}

Score score_from(const v1::Score& score, bool turned) {
    constexpr std::uint32_t most = 255;
    const auto a = static_cast<std::uint8_t>(std::min(score.a(), most));
    const auto b = static_cast<std::uint8_t>(std::min(score.b(), most));
    return turned ? Score{b, a} : Score{a, b};
}

MatchStatus status_of(v1::MatchStatus status) {
    switch (static_cast<int>(status)) {
        case v1::MATCH_STATUS_CALLED:
            return MatchStatus::called;
        case v1::MATCH_STATUS_IN_PLAY:
            return MatchStatus::in_play;
        case v1::MATCH_STATUS_FINISHED:
            return MatchStatus::finished;
        case v1::MATCH_STATUS_SIGNED:
            return MatchStatus::signed_off;
        case v1::MATCH_STATUS_CANCELLED:
            return MatchStatus::cancelled;
        default:
            return MatchStatus::scheduled;
    }
}

}  // namespace

MatchPlanned match_of(const v1::Match& match) {
    return {id_of_bytes(match.match_id()),
            static_cast<int>(match.number()),
            match.court(),
            match.first().name(),
            match.second().name(),
            colour_of_hex(match.first().colour()),
            colour_of_hex(match.second().colour()),
            match.profile_id(),
            status_of(match.status()),
            maybe_moment(match.scheduled_us())};
}

CourtListed court_of(const v1::Court& court) {
    return {court.number(), court.name(), id_of_bytes(court.current().match_id()),
            static_cast<int>(court.waiting()), id_of_bytes(court.device_id())};
}

TeamListed team_of(const v1::Team& team) {
    TeamListed listed{
        id_of_bytes(team.team_id()), team.name(), team.club(), colour_of_hex(team.colour()), {}};
    for (const auto& player : team.players()) {
        listed.players.push_back(
            {static_cast<int>(player.number()), player.name(), player.captain(), player.libero()});
    }
    return listed;
}

ResultListed result_of(const v1::MatchResult& result) {
    const bool turned = result.first_is_b();
    ResultListed listed;
    listed.match_id = id_of_bytes(result.match().match_id());
    listed.sets = score_from(result.sets(), turned);
    for (const auto& score : result.set_scores()) {
        listed.set_scores.push_back(score_from(score, turned));
    }
    listed.decided = result.winner() != v1::TEAM_LETTER_UNSPECIFIED;
    listed.first_won = result.winner() == (turned ? v1::TEAM_LETTER_B : v1::TEAM_LETTER_A);
    listed.forfeited = result.forfeited();
    listed.alerts_open = static_cast<int>(result.alerts_open());
    listed.head_hash = result.head_hash();
    listed.signed_by = wire::signers_of(result.signed_by());
    if (turned) listed.signed_by = courthand::turned(listed.signed_by);
    listed.protested = result.protested();
    listed.left_to_desk = result.left_to_desk();
    return listed;
}

namespace {

Seat seat_of(v1::Seat seat) {
    if (seat == v1::SEAT_DESK) return Seat::desk;
    return seat == v1::SEAT_HEAD ? Seat::head : Seat::table;
}

}  // namespace

AuditListed audit_of(const v1::AuditLine& line) {
    AuditListed listed;
    listed.number = line.number();
    listed.at = moment_of_us(line.at_us());
    listed.device_id = id_of_bytes(line.device_id());
    listed.device_name = line.device_name();
    listed.seat = seat_of(line.seat());
    listed.court = line.court();
    listed.act = line.act();
    listed.subject = line.subject();
    listed.detail = line.detail();
    listed.refused = line.refused();
    return listed;
}

DeviceListed device_of(const v1::Device& device) {
    DeviceListed listed;
    listed.id = id_of_bytes(device.device_id());
    listed.name = device.name();
    listed.court = device.court();
    listed.last_seen = maybe_moment(device.last_seen_us());
    listed.revoked = device.revoked();
    listed.seat = seat_of(device.seat());
    return listed;
}

RosterReading reading_of(const v1::ImportRosterResponse& response) {
    RosterReading reading;
    for (const auto& error : response.errors()) {
        reading.problems.push_back(
            {static_cast<int>(error.row()), error.column(), error.message(), error.cure()});
    }
    reading.problem_count = static_cast<int>(response.error_count());
    for (const auto& team : response.teams()) reading.teams.push_back(team_of(team));
    reading.kept = response.kept();
    return reading;
}

v1::Seat seat_of(Seat seat) {
    switch (seat) {
        case Seat::table:
            return v1::SEAT_TABLE;
        case Seat::desk:
            return v1::SEAT_DESK;
        case Seat::head:
            return v1::SEAT_HEAD;
    }
    return v1::SEAT_UNSPECIFIED;
}

}  // namespace courthand::venue
