// What a match is called: by its name in the record of the tournament, at every seat but the table,
// which has a number for the sheet in its hand.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>

#include "courthand/event/state.h"
#include "venue/board.h"

namespace courthand::venue {

class MatchNames {
  public:
    MatchNames() = default;
    explicit MatchNames(const event::TournamentState& state);

    /// By the id of the record that a table keeps. Nothing: the tournament has no such match, or
    /// its record has not come so far.
    [[nodiscard]] std::optional<std::string> of(const Id& record) const;
    friend bool operator==(const MatchNames&, const MatchNames&) = default;

  private:
    std::unordered_map<Id, std::string> names_;
};

}  // namespace courthand::venue
