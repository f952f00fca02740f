// Facts about teams and people. A person is a number and a role; a name stands beside the record,
// sealed by its hash, so that it can be erased (proto/wire/event_entry.h).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "courthand/match/jersey.h"

namespace courthand::event {

/// A team is called by its name, which no other team of the tournament has.
struct TeamEntered {
    std::string team;
    std::string division;
    std::string club;      ///< empty: it stands for itself
    std::string colour{};  ///< of its shirts, six hexadecimal digits; empty: not told
    /// In which it played the last event; empty: none. Teams with one name of it met there.
    std::string last_pool{};
    friend bool operator==(const TeamEntered&, const TeamEntered&) = default;
};

struct TeamWithdrawn {
    std::string team;
    friend bool operator==(const TeamWithdrawn&, const TeamWithdrawn&) = default;
};

/// The list with which a team plays the event; a later one takes its place.
struct RosterFrozen {
    std::string team;
    std::vector<std::uint8_t> numbers;  ///< of the players
    friend bool operator==(const RosterFrozen&, const RosterFrozen&) = default;
};

enum class Role : std::uint8_t { player, coach, official, worker };

struct PersonListed {
    std::uint16_t person = 1;  ///< given by the desk
    Role role = Role::official;
    std::string team;  ///< empty: none
    Jersey jersey{};   ///< of a player
    bool captain = false;
    bool libero = false;  ///< listed as one; the line-up sheet decides
    friend bool operator==(const PersonListed&, const PersonListed&) = default;
};

/// The person should not work a match of this team.
struct ConflictDeclared {
    std::uint16_t person = 1;
    std::string team;
    friend bool operator==(const ConflictDeclared&, const ConflictDeclared&) = default;
};

/// People who work matches together; said again, its persons are these.
struct CrewFormed {
    std::string crew;
    std::vector<std::uint16_t> persons;
    friend bool operator==(const CrewFormed&, const CrewFormed&) = default;
};

/// What is said about a team that is entered already; its name stays. Said again, it is this.
struct TeamDescribed {
    std::string team;
    std::string club;         ///< empty: it stands for itself
    std::string colour;       ///< six hexadecimal digits; empty: not told
    std::string last_pool{};  ///< as in `TeamEntered`
    friend bool operator==(const TeamDescribed&, const TeamDescribed&) = default;
};

}  // namespace courthand::event
