#include "server/service/desk_message.h"

#include "server/service/match_message.h"
#include "server/venue/alert_message.h"
#include "server/venue/match_teams.h"
#include "wire/fact_convert.h"
#include "wire/signers.h"

namespace courthand::server::service {

v1::Seat to_message(auth::Seat seat) noexcept {
    switch (seat) {
        case auth::Seat::table:
            return v1::SEAT_TABLE;
        case auth::Seat::desk:
            return v1::SEAT_DESK;
        case auth::Seat::head:
            return v1::SEAT_HEAD;
    }
    return v1::SEAT_UNSPECIFIED;
}

std::optional<auth::Seat> seat_of(v1::Seat seat) noexcept {
    for (const auth::Seat one : {auth::Seat::table, auth::Seat::desk, auth::Seat::head})
        if (to_message(one) == seat) return one;
    return std::nullopt;
}

v1::Team to_message(const desk::Team& team, TournamentId tournament) {
    v1::Team out;
    if (!team.id.nil()) out.set_team_id(to_bytes(team.id.value));
    out.set_tournament_id(to_bytes(tournament.value));
    out.set_name(team.name);
    out.set_club(team.club);
    out.set_colour(team.colour);
    for (const desk::ListedPlayer& player : team.players) {
        v1::RosterPlayer& listed = *out.add_players();
        listed.set_number(player.number.number());
        if (player.name) listed.set_name(*player.name);
        listed.set_captain(player.captain);
        listed.set_libero(player.libero);
    }
    return out;
}

v1::RowError to_message(const desk::RosterError& error) {
    v1::RowError out;
    out.set_row(error.line);
    out.set_column(error.column);
    out.set_message(error.message);
    out.set_cure(error.cure);
    return out;
}

v1::Device to_message(const auth::Device& device, std::optional<ServerTime> last_seen) {
    v1::Device out;
    out.set_device_id(to_bytes(device.who.device.value));
    out.set_name(device.name);
    out.set_seat(to_message(device.who.seat));
    out.set_court(device.who.court);
    out.set_enrolled_us(venue::microseconds(device.enrolled));
    if (last_seen) out.set_last_seen_us(venue::microseconds(*last_seen));
    out.set_revoked(device.revoked.has_value());
    return out;
}

v1::AuditLine to_message(const audit::AuditEntry& line) {
    v1::AuditLine out;
    out.set_number(line.number);
    out.set_at_us(venue::microseconds(line.at));
    if (line.who) {
        out.set_device_id(to_bytes(line.who->device.value));
        out.set_seat(to_message(line.who->seat));
        out.set_court(line.who->court);
    }
    out.set_act(line.act);
    out.set_subject(line.subject);
    out.set_detail(line.detail);
    out.set_refused(line.refused);
    return out;
}

v1::MatchResult result_of(const LiveMatch& match) {
    v1::MatchResult out;
    to_message(match, *out.mutable_match());
    const MatchState& state = match.state;
    out.mutable_sets()->set_a(state.team.a.sets_won);
    out.mutable_sets()->set_b(state.team.b.sets_won);
    std::uint8_t finished = 0;
    for (const SetResult& result : state.results) {
        if (!result.played) break;
        wire::to_proto(result.score, *out.add_set_scores());
        ++finished;
    }
    if (state.set.number > finished) wire::to_proto(state.set.score, *out.add_set_scores());
    if (state.set.stage == Stage::match_over) out.set_winner(wire::to_proto(state.winner));
    out.set_forfeited(state.forfeited != 0);
    out.set_first_is_b(venue::teams_of(match).first_is_b);
    out.set_head_hash(match.head.hash.data(), match.head.hash.size());
    wire::to_proto(match.signed_by, *out.mutable_signed_by());
    out.set_protested(match.protested);
    return out;
}

}  // namespace courthand::server::service
