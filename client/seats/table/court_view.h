// The tiles of the floor and beside it, for the court on the screen.
#pragma once

#include <vector>

#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "tiles.h"
#include "wording.h"

namespace courthand::client {

/// How a tile stands to what is chosen; the order is that of CourtTile.Offer in QML.
enum class Offer : int { idle, chosen, legal, barred };

/// A number the person has touched, and what could be done with it.
struct Choice {
    Team team{};
    Jersey jersey{};
    std::vector<Option> options;  ///< libero replacements in which `jersey` takes part

    [[nodiscard]] bool made() const noexcept { return jersey.worn(); }
    /// The replacement between the chosen number and `other`, or null.
    [[nodiscard]] const Option* with(Jersey other) const noexcept;
};

/// Who stands at a libero's box beside the court: the libero, or whom he replaces.
[[nodiscard]] Jersey beside(const TeamSet& team, std::size_t box) noexcept;

/// The regular player replaced by a libero on court, or none.
[[nodiscard]] Jersey replaced_by(const TeamSet& team, Jersey libero) noexcept;

class CourtView {
  public:
    CourtView(const MatchState& state, const Wording& wording, const Choice& choice)
        : state_{state}, wording_{wording}, choice_{choice} {}

    /// Six tiles by position. `ticked` marks places already compared with the sheet.
    [[nodiscard]] std::vector<FloorTile> places(Team team, unsigned ticked) const;
    /// Two tiles, one for each libero box; an empty one where there is no libero.
    [[nodiscard]] std::vector<FloorTile> liberos(Team team) const;

  private:
    void offer(FloorTile& tile, Team team, Jersey jersey) const;

    const MatchState& state_;
    const Wording& wording_;
    const Choice& choice_;
};

}  // namespace courthand::client
