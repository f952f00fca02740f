// What a match is called by a seat that has the record of the tournament before it: by its name
// there. Others are told it with the match itself.
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
