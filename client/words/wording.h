// What the core says, in words for people: at the table, at the head's seat and at the desk. Words
// for a fact, a reason and a verdict stand here and nowhere else. No rule is decided here.
#pragma once

#include <QCoreApplication>
#include <QString>

#include "courthand/match/fact.h"
#include "courthand/match/position.h"
#include "courthand/match/team.h"
#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/reason.h"
#include "courthand/rules/verdict.h"

namespace courthand::client {

class Wording {
    Q_DECLARE_TR_FUNCTIONS(Wording)

  public:
    Wording() = default;
    Wording(PerTeam<QString> names, Family family, const Profile* profile = nullptr)
        : names_{std::move(names)}, family_{family}, profile_{profile} {}

    [[nodiscard]] static QString number(Jersey jersey);
    [[nodiscard]] static QString roman(Position position);
    [[nodiscard]] static QString roman(Slot slot);
    [[nodiscard]] static QString six(const Six& six);
    [[nodiscard]] static QString sanction(Sanction sanction);
    [[nodiscard]] static QString cause(Cause cause);
    /// Two or three words for a small place, e.g. "front row".
    [[nodiscard]] static QString brief(Reason reason);
    /// The word of the reason as scripts and the wire write it.
    [[nodiscard]] static QString word(Reason reason);
    [[nodiscard]] static QString sentence(Reason reason);
    [[nodiscard]] static QString phase(Phase phase);

    [[nodiscard]] QString team(Team team) const { return names_[team]; }
    /// Where the rule stands in the code of the active profile; empty when it has none.
    [[nodiscard]] QString rule(Reason reason) const;
    /// The same for a verdict, with the values it rests on that were not seen in print.
    [[nodiscard]] QString rule(const Verdict& verdict) const;
    /// The sentence of a reason with its source.
    [[nodiscard]] QString why(Reason reason) const;
    /// What must happen next, as one sentence.
    [[nodiscard]] QString prompt(const Prompt& prompt) const;
    /// The one act that would do what the prompt asks for; empty when there is no single one.
    [[nodiscard]] QString act(const Prompt& prompt) const;
    /// What the rules prescribe for a verdict, with the score after it.
    [[nodiscard]] QString remedy(const Verdict& verdict) const;
    [[nodiscard]] QString verdict(const Verdict& verdict) const;
    /// Who signs: "captain of Mill Lane".
    [[nodiscard]] QString signer(Signer signer) const;
    /// What was recorded.
    [[nodiscard]] QString fact(const Fact& fact) const;

  private:
    PerTeam<QString> names_;
    Family family_ = Family::international;
    const Profile* profile_ = nullptr;  ///< a built-in one; null when the id is unknown
};

}  // namespace courthand::client
