#include "server/desk/demo_venue.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "server/desk/desk_store.h"
#include "server/desk/match_planning.h"
#include "server/tournament/derived_id.h"

namespace courthand::server::desk {

namespace {

struct Club {
    const char* name;
    const char* colour;
    std::uint8_t first_number;  ///< the list runs on from here; so no two teams look alike
};

constexpr std::array<Club, 8> clubs{{
    {"Harbour Lights", "1f3a5f", 1},
    {"Mill Lane", "b3541e", 31},
    {"Quayside", "2a7f62", 2},
    {"Saltmarsh", "6b6f1e", 41},
    {"North Pier", "7a2f6d", 3},
    {"Lantern Hill", "c99700", 51},
    {"Tidewater", "0f6e84", 4},
    {"Ropewalk", "8c2f2f", 61},
}};

// Ten players and two liberos: what a list usually holds.
constexpr std::uint8_t regular_players = 10;
constexpr std::uint8_t libero_players = 2;

constexpr const char* demo_profile = "international-2025";

Team team_of(const Club& club) {
    Team team{{}, club.name, club.name, club.colour, {}, {}};
    for (std::uint8_t i = 0; i < regular_players + libero_players; ++i) {
        ListedPlayer player;
        player.number = Jersey{static_cast<std::uint8_t>(club.first_number + i)};
        player.captain = i == 2;
        player.libero = i >= regular_players;
        team.players.push_back(std::move(player));
    }
    return team;
}

/// The same at every server that fills the tournament.
MatchId demo_match(TournamentId tournament, std::uint32_t court) {
    return MatchId{tournament::derived_id(tournament.value, fmt::format("demo match {}", court))};
}

bool is_of_demo(TournamentId tournament, MatchId match) {
    for (std::uint32_t court = 1; court <= demo_courts; ++court)
        if (demo_match(tournament, court) == match) return true;
    return false;
}

}  // namespace

std::vector<Team> demo_teams() {
    std::vector<Team> teams;
    for (const Club& club : clubs) teams.push_back(team_of(club));
    return teams;
}

Status fill_demo_venue(tournament::RecordKeeper& record, MatchStore& matches,
                       TournamentId tournament) {
    const Result<std::vector<StoredMatch>> planned = matches.matches(tournament);
    if (!planned.ok()) return planned.status();
    const bool of_demo = std::all_of(planned->begin(), planned->end(), [&](const StoredMatch& m) {
        return is_of_demo(tournament, m.plan.key.match);
    });
    if (!of_demo || planned->size() == demo_courts) return Status::fine();

    DeskStore desk{record};
    const Result<std::vector<Team>> teams =
        desk.keep_teams(tournament::this_server(), demo_teams(), "the demo begins");
    if (!teams.ok()) return teams.status();
    for (std::uint32_t court = 1; court <= demo_courts; ++court) {
        MatchWish wish;
        wish.key = {tournament, demo_match(tournament, court)};
        wish.first = (*teams)[2 * (court - 1)].id;
        wish.second = (*teams)[2 * (court - 1) + 1].id;
        wish.court = court;
        wish.profile = demo_profile;
        const Result<MatchPlan> plan =
            plan_match({record, matches, tournament::this_server()}, wish);
        if (!plan.ok()) return plan.status();
    }
    return Status::fine();
}

}  // namespace courthand::server::desk
