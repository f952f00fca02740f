#include "client/session/stored_sheet.h"

#include <fmt/format.h>

#include "courthand/rules/profile.h"
#include "wire/fact_convert.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

std::string id_text(const std::string& bytes) {
    const auto id = wire::Uuid::from_bytes(bytes);
    return id ? id->to_text() : std::string{};
}

std::vector<MatchSheet::Player> players_of(const v1::Team& team) {
    std::vector<MatchSheet::Player> players;
    for (const v1::RosterPlayer& line : team.players()) {
        if (line.number() > Jersey::largest || players.size() == most_players) continue;
        MatchSheet::Player player;
        player.number = Jersey{static_cast<std::uint8_t>(line.number())};
        player.name = line.name();
        player.libero = line.libero();
        player.captain = line.captain();
        players.push_back(std::move(player));
    }
    return players;
}

std::string colour_of(const v1::MatchTeam& team) {
    return team.colour().empty() ? std::string{} : "#" + team.colour();
}

/// True when there were any.
bool clear_names(v1::FetchMatchResponse& kept) {
    bool any = false;
    for (v1::Team* team : {kept.has_first_roster() ? kept.mutable_first_roster() : nullptr,
                           kept.has_second_roster() ? kept.mutable_second_roster() : nullptr}) {
        if (team == nullptr) continue;
        for (v1::RosterPlayer& player : *team->mutable_players()) {
            any = any || player.has_name();
            player.clear_name();
        }
    }
    return any;
}

/// A sheet must fit into a row. What a match is played with are the numbers: the text of a profile
/// that this program does not know anyway goes first, then the names of the players.
void shrink(v1::FetchMatchResponse& kept) {
    if (kept.ByteSizeLong() > most_sheet_bytes && kept.has_profile())
        kept.mutable_profile()->clear_text();
    if (kept.ByteSizeLong() <= most_sheet_bytes) return;
    (void)clear_names(kept);
}

/// Until the toss says otherwise the team named first is A.
MatchSheet sheet_of(const v1::FetchMatchResponse& kept) {
    MatchSheet sheet;
    const v1::Match& match = kept.match();
    sheet.match_id = id_text(match.match_id());
    sheet.number = match.number();
    sheet.name = match.name();
    sheet.court = static_cast<std::uint16_t>(match.court());
    sheet.names = {match.first().name(), match.second().name()};
    sheet.colours = {colour_of(match.first()), colour_of(match.second())};
    sheet.profile = match.profile_id();
    sheet.players = {players_of(kept.first_roster()), players_of(kept.second_roster())};
    if (match.has_format()) {
        const auto format = wire::from_proto(match.format());
        if (const auto* good = std::get_if<MatchFormat>(&format)) sheet.format = *good;
    }
    return sheet;
}

}  // namespace

std::string id_bytes(const Device& device) {
    const auto id = wire::Uuid::from_text(device.id);
    return id ? id->to_bytes() : std::string{};
}

StoredMatch keep(const v1::FetchMatchResponse& answer) {
    v1::FetchMatchResponse kept = answer;
    kept.clear_header();
    kept.clear_entries();
    kept.clear_following();
    // Built-in profiles need no text, and a sheet must fit into a row.
    if (find_profile(kept.match().profile_id()) != nullptr) kept.mutable_profile()->clear_text();
    shrink(kept);
    return StoredMatch{id_text(kept.match().match_id()), kept.SerializeAsString()};
}

std::optional<StoredMatch> without_names(const StoredMatch& stored) {
    v1::FetchMatchResponse kept;
    if (!kept.ParseFromString(stored.sheet) || !clear_names(kept)) return std::nullopt;
    return StoredMatch{stored.match_id, kept.SerializeAsString()};
}

std::variant<StoredSheet, std::string> read_sheet(const StoredMatch& stored) {
    v1::FetchMatchResponse kept;
    if (!kept.ParseFromString(stored.sheet) || id_text(kept.match().match_id()).empty())
        return fmt::format(
            "The sheet of match {} cannot be read. Connect to the server once, it "
            "will be fetched again.",
            stored.match_id);
    StoredSheet sheet;
    sheet.sheet = sheet_of(kept);
    sheet.match = kept.match();
    sheet.writer = {kept.writer().number(), kept.writer().grant_id(), kept.writer().device_id()};
    sheet.asked_by = kept.asked().device_id();
    const bool planned = kept.match().number() != 0;
    sheet.practice =
        kept.writer().self_granted() && !planned && kept.match().tournament_id().empty();
    // Also when another device took it over since: a server put back may not know it any more.
    sheet.opened_here = !planned && !sheet.practice;
    return sheet;
}

StoredMatch open_here(const Device& device, std::uint16_t court, const std::string& profile,
                      const PerTeam<std::string>& names) {
    v1::FetchMatchResponse kept;
    v1::Match& match = *kept.mutable_match();
    match.set_match_id(wire::UuidMaker::of_system().next().to_bytes());
    if (device.enrolled)
        if (const auto id = wire::Uuid::from_text(device.tournament_id))
            match.set_tournament_id(id->to_bytes());
    match.set_court(court);
    match.mutable_first()->set_name(names.a);
    match.mutable_second()->set_name(names.b);
    match.set_profile_id(profile);
    if (const Profile* known = find_profile(profile)) {
        match.set_profile_hash(known->hash);
        wire::to_proto(known->rules.format, *match.mutable_format());
    }
    match.set_status(v1::MATCH_STATUS_SCHEDULED);
    v1::WriterEpoch& writer = *kept.mutable_writer();
    writer.set_number(1);
    writer.set_self_granted(true);
    if (const auto id = wire::Uuid::from_text(device.id)) writer.set_device_id(id->to_bytes());
    return keep(kept);
}

}  // namespace courthand::client
