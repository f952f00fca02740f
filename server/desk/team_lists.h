// The teams of the tournament's record with their lists, as the desk and the tables see them. Pure.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "server/desk/team.h"
#include "server/tournament/known_record.h"

namespace courthand::server::desk {

/// The players of a record: who wears a number in a team.
class ListedPersons {
  public:
    explicit ListedPersons(const tournament::KnownRecord& known);

    using Number = std::uint16_t;
    /// The persons of the team, by the number they wear.
    using OfTeam = std::map<std::uint8_t, Number>;
    [[nodiscard]] const OfTeam& of(event::TeamIndex team) const;
    /// Nothing: the person has none, or it was erased.
    [[nodiscard]] std::optional<std::string> name(Number person) const;
    [[nodiscard]] const event::Person& person(Number number) const {
        return known_.state->persons.at(number);
    }

  private:
    tournament::KnownRecord known_;
    std::map<event::TeamIndex, OfTeam> teams_;
};

/// The id of a team is that of the fact by which it was entered: the same for ever, and at every
/// server.
[[nodiscard]] TeamId id_of_team(const tournament::KnownRecord& known, event::TeamIndex team);
/// Nothing when no team of the record has this id.
[[nodiscard]] std::optional<event::TeamIndex> find_team(const tournament::KnownRecord& known,
                                                        TeamId id);

[[nodiscard]] Team team_list(const tournament::KnownRecord& known, const ListedPersons& persons,
                             event::TeamIndex team);
/// All of them, by name.
[[nodiscard]] std::vector<Team> team_lists(const tournament::KnownRecord& known);

}  // namespace courthand::server::desk
