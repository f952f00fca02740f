// What the screen shows of a match at one moment. Asks the core, decides nothing, keeps nothing.
#pragma once

#include <QCoreApplication>
#include <QString>
#include <array>
#include <vector>

#include "court_view.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"
#include "session/match_session.h"
#include "side_view.h"
#include "tiles.h"
#include "wording.h"

namespace courthand::client {

/// The names of a team's players by their number; empty where none is known.
using PlayerNames = PerTeam<std::array<QString, Jersey::largest + 1>>;

/// What every room of the seat looks at. All of it outlives the rooms.
struct MatchLook {
    const MatchSession& session;
    const Wording& wording;
    const PlayerNames& names;

    [[nodiscard]] const MatchState& state() const { return session.state(); }
    [[nodiscard]] const Rules& rules() const { return session.rules(); }
};

/// What people at the table have noted of a team and no record holds.
struct SideMarks {
    unsigned ticked = 0;        ///< places compared with the sheet, one bit for each position
    bool awaiting_six = false;  ///< after a time-out: nobody has said that the same six are back
};

class Display {
    Q_DECLARE_TR_FUNCTIONS(TableSeat)

  public:
    /// Made for one look.
    explicit Display(const MatchLook& look)
        : state_{look.state()},
          rules_{look.rules()},
          sheet_{look.session.sheet()},
          wording_{look.wording},
          names_{look.names} {}

    [[nodiscard]] SideFacts side(Team team, const Choice& choice, const SideMarks& marks) const;
    [[nodiscard]] std::vector<Notice> notices(const std::vector<Verdict>& standing) const;
    /// What to touch now that a number is chosen.
    [[nodiscard]] QString choice_words(const Choice& choice) const;
    /// Numbers that take part in what is chosen but stand on no tile.
    [[nodiscard]] std::vector<PlayerTile> other_numbers(const Choice& choice) const;
    /// Who of the six may be game captain.
    [[nodiscard]] std::vector<PlayerTile> captains(Team team) const;

  private:
    /// For the second referee: which libero is on court, and for whom.
    [[nodiscard]] QString libero_words(Team team) const;
    [[nodiscard]] std::vector<PlayerTile> roster(Team team) const;

    const MatchState& state_;
    const Rules& rules_;
    const MatchSheet& sheet_;
    const Wording& wording_;
    const PlayerNames& names_;
};

}  // namespace courthand::client
