// What must be said so that the tournament's record has the list of a team. Pure, but for the
// numbers and ids that it gives.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "server/desk/team_lists.h"
#include "server/store/status.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

/// Of teams that come when there is no division yet: code "open", the profile with which the desk
/// plans a match when nobody chooses another, the order of pools that goes with it.
[[nodiscard]] event::DivisionOpened usual_division();

/// For the teams of one file or table, one after the other.
class ListFacts {
  public:
    /// `reason` stands beside each frozen list that changes. Empty: none may.
    explicit ListFacts(const tournament::KnownRecord& known, std::string reason = {});

    /// Nothing when the record has the list already. Of one that is frozen the people change as the
    /// numbers do: for a reason, beside the list frozen anew; a name where none was is no change. A
    /// team is found by its id, or, without one, by its name: a club or colour that is not given
    /// stays, the list takes the place of the one before unless it has no player. `invalid` with
    /// the cure for a team that cannot be entered, `exhausted` beyond a bound of the record.
    [[nodiscard]] Result<std::vector<tournament::Act::Said>> of(const Team& team);
    /// The name by which the record knows the team, or will.
    [[nodiscard]] Result<std::string> name_of(const Team& team) const;

  private:
    using Said = std::vector<event::Said>;
    [[nodiscard]] std::optional<event::TeamIndex> known_as(const Team& team) const;
    [[nodiscard]] Result<std::string> division_of(const Team& team, Said& said);
    [[nodiscard]] Status enter(const Team& team, const std::string& name, Said& said);
    void describe(const Team& team, event::TeamIndex index, Said& said) const;
    [[nodiscard]] Status list(const Team& team, const std::string& name,
                              std::optional<event::TeamIndex> index, Said& said);
    [[nodiscard]] Status freeze(const std::string& name, std::optional<event::TeamIndex> index,
                                std::vector<std::uint8_t> numbers, Said& said) const;
    [[nodiscard]] std::vector<std::uint16_t> persons_for(const Team& team,
                                                         const ListedPersons::OfTeam& listed);
    [[nodiscard]] std::uint16_t new_person();

    tournament::KnownRecord known_;
    std::string reason_;
    ListedPersons persons_;
    std::set<std::string> named_;
    std::size_t entered_ = 0;
    bool division_said_ = false;
    std::uint32_t next_person_ = 1;
};

}  // namespace courthand::server::desk
