// Teams with their lists, and courts, as the desk speaks of them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "courthand/match/jersey.h"
#include "server/domain/ids.h"

namespace courthand::server::desk {

/// A tournament larger than this is run as several.
inline constexpr std::size_t most_teams = 500;

struct ListedPlayer {
    Jersey number{};
    std::optional<std::string> name;  ///< none: the venue works with numbers only
    bool captain = false;
    bool libero = false;  ///< listed as one; the line-up sheet decides
    friend bool operator==(const ListedPlayer&, const ListedPlayer&) = default;
};

struct Team {
    TeamId id;  ///< nil until it has been entered
    std::string name;
    std::string club;                   ///< empty: the team stands for itself
    std::string colour;                 ///< six hexadecimal digits, or empty
    std::vector<ListedPlayer> players;  ///< in the order of the list
    std::string division{};             ///< its code; empty: the only one there is
    std::string last_pool{};            ///< in which it played the last event; empty: none
    friend bool operator==(const Team&, const Team&) = default;
};

struct Court {
    std::uint32_t number = 0;
    std::string name;  ///< on the signs; empty: the number alone
    friend bool operator==(const Court&, const Court&) = default;
};

}  // namespace courthand::server::desk
