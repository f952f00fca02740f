// Picking on the court: a number that is touched or typed, and what could be done with it. Nothing
// is recorded here.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "court_view.h"
#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "typed_number.h"

namespace courthand::client {

class CourtPick {
  public:
    /// A legal replacement: to be recorded.
    struct Record {
        Fact fact{};
    };
    /// Not legal; nobody may know that it happened but a person.
    struct Propose {
        Option option{};
    };
    /// A regular player: somebody may come for him.
    struct Substitute {
        Team team{};
        Jersey out{};
    };
    /// No team list has the number, or not the one of the team that was named.
    struct Unknown {
        Jersey jersey{};
        std::optional<Team> team;
    };
    struct Nothing {};
    using Result = std::variant<Nothing, Record, Propose, Substitute, Unknown>;

    [[nodiscard]] const Choice& choice() const noexcept { return choice_; }
    [[nodiscard]] const QString& typed() const noexcept { return typed_.text(); }
    [[nodiscard]] std::optional<Team> typing_for() const noexcept { return typing_for_; }
    /// The typed number is of both teams, and none has been named.
    [[nodiscard]] bool asks_for_team() const noexcept { return asks_for_team_; }

    /// A number of `team` is touched.
    [[nodiscard]] Result touch(const Rules& rules, const MatchState& state, Team team,
                               Jersey jersey);
    void let_go();

    /// Names the team whose number is typed: `first`, then the other, then none.
    void next_team(Team first);
    /// True when the number is complete.
    [[nodiscard]] bool digit(int figure);
    void erase() { typed_.erase(); }
    /// Takes the typed number, for the team that is named, chosen, or the only one that has it.
    [[nodiscard]] Result enter(const Rules& rules, const MatchState& state);

  private:
    [[nodiscard]] Result choose(const Rules& rules, const MatchState& state, Team team,
                                Jersey jersey);
    /// For a libero on court: everybody on the bench who might walk in for him, asked of the core.
    void add_other_returners(const Rules& rules, const MatchState& state);

    Choice choice_{};
    TypedNumber typed_;
    std::optional<Team> typing_for_;
    bool asks_for_team_ = false;
};

}  // namespace courthand::client
