// Eight invented teams with their lists, as the desk keeps them: those of four_courts.event.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "server/desk/team.h"

namespace courthand::server::testing {

/// Without ids. Ten players and two liberos each: what a list usually holds.
[[nodiscard]] inline std::vector<desk::Team> harbour_teams() {
    struct Club {
        const char* name;
        const char* colour;
        std::uint8_t first_number;  ///< the list runs on from here, so that no two teams look alike
    };
    constexpr std::array<Club, 8> clubs{{{"Harbour Lights", "1f3a5f", 1},
                                         {"Mill Lane", "b3541e", 31},
                                         {"Quayside", "2a7f62", 2},
                                         {"Saltmarsh", "6b6f1e", 41},
                                         {"North Pier", "7a2f6d", 3},
                                         {"Lantern Hill", "c99700", 51},
                                         {"Tidewater", "0f6e84", 4},
                                         {"Ropewalk", "8c2f2f", 61}}};
    constexpr std::uint8_t regular_players = 10;
    constexpr std::uint8_t libero_players = 2;
    std::vector<desk::Team> teams;
    for (const Club& club : clubs) {
        desk::Team team{{}, club.name, club.name, club.colour, {}, {}};
        for (std::uint8_t i = 0; i < regular_players + libero_players; ++i) {
            desk::ListedPlayer player;
            player.number = Jersey{static_cast<std::uint8_t>(club.first_number + i)};
            player.captain = i == 2;
            player.libero = i >= regular_players;
            team.players.push_back(std::move(player));
        }
        teams.push_back(std::move(team));
    }
    return teams;
}

}  // namespace courthand::server::testing
