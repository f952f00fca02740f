// Where the desk's teams, their lists and the courts are kept. One tournament per store.
// Thread-safe; every call may take as long as the database takes.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "courthand/match/jersey.h"
#include "server/domain/ids.h"
#include "server/store/status.h"

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
    TeamId id;  ///< nil until the store has given one
    std::string name;
    std::string club;                   ///< empty: the team stands for itself
    std::string colour;                 ///< six hexadecimal digits, or empty
    std::vector<ListedPlayer> players;  ///< in the order of the list
    friend bool operator==(const Team&, const Team&) = default;
};

struct Court {
    std::uint32_t number = 0;
    std::string name;  ///< on the signs; empty: the number alone
    friend bool operator==(const Court&, const Court&) = default;
};

class DeskStore {
  public:
    virtual ~DeskStore() = default;

    /// By name.
    virtual Result<std::vector<Team>> teams() = 0;
    /// `not_found` when there is none.
    virtual Result<Team> team(TeamId id) = 0;
    /// All or none. A team of the same name and club keeps its id and gets the new list.
    virtual Result<std::vector<Team>> keep_teams(std::span<const Team> teams) = 0;

    /// By number.
    virtual Result<std::vector<Court>> courts() = 0;
    /// Adds the court, or renames it when `name` is not empty.
    virtual Status keep_court(const Court& court) = 0;
};

/// The twin without a database, for unit tests.
[[nodiscard]] std::unique_ptr<DeskStore> make_memory_desk_store();

}  // namespace courthand::server::desk
