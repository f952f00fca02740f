// How an act reaches the record from any room of the seat: at once, only when it is legal, or as a
// question to a person.
#pragma once

#include <QString>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/fact.h"
#include "courthand/rules/judge.h"

namespace courthand::client {

/// What is not done at once: a person must say that it happened.
struct Proposal {
    std::vector<Fact> facts;
    QString words;  ///< what would be recorded
    QString mark;   ///< why it is asked, in two words
    QString why;    ///< the same in a sentence
};

class Acting {
  public:
    virtual ~Acting() = default;
    /// Records the facts as one act that one undo strikes. False when one could not be saved.
    virtual bool perform(const std::vector<Fact>& facts, const QString& text = {}) = 0;
    /// As `perform` when the core raises nothing; otherwise asks, with the reason.
    virtual bool attempt(const Fact& fact) = 0;
    /// Entry `target` should have said `fact`. False when that could not be saved.
    virtual bool amend(EntryNumber target, const Fact& fact) = 0;
    virtual void ask(Proposal proposal) = 0;
    /// Asks whether an option that is not legal happened.
    virtual void propose(const Option& option) = 0;

    [[nodiscard]] virtual Team team_on(bool on_left) const = 0;
    [[nodiscard]] bool is_left(Team team) const { return team_on(true) == team; }

    /// Something that is on the screen has changed.
    virtual void show_again() = 0;
    /// A short word in passing; not `good` when it needs a look.
    virtual void say(const QString& words, bool good) = 0;
    /// The sheet of that name (sheet_names.h) is to be opened.
    virtual void want_sheet(const QString& name) = 0;
    /// The sheet for a request for substitution, with who goes off chosen, if anybody.
    virtual void want_substitution(Team team, Jersey out) = 0;
};

/// The jersey of a number from the screen; none when it is no number.
[[nodiscard]] inline Jersey jersey_of(int number) {
    return number < 0 || number > Jersey::largest ? Jersey::none()
                                                  : Jersey{static_cast<std::uint8_t>(number)};
}

}  // namespace courthand::client
