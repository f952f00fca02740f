// What the record of the tournament says, in words for people: its facts, what one of them could
// not bring about, and what it changes. Words for these stand here and nowhere else.
#pragma once

#include <QString>
#include <QStringList>
#include <string>
#include <vector>

#include "courthand/event/change.h"
#include "courthand/event/effects.h"
#include "courthand/event/fact.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"

namespace courthand::client {

/// "Result of M7 from paper: 25-20 25-22".
[[nodiscard]] QString event_words(const event::Fact& fact);
/// What, where, and the cure: "M7: it has a result already. Reopen it first."
[[nodiscard]] QString finding_words(const event::Finding& finding);
[[nodiscard]] QString fault_words(const tournament::Fault& fault);
/// "M7, court: 2 → 3".
[[nodiscard]] QString change_words(const event::Change& change);
/// What an act changes, a line for each change with the old and the new; of very many the first,
/// and how many more there are. Then what the effects name beside that. Empty when nothing changes.
[[nodiscard]] QStringList effect_lines(const event::Effects& effects,
                                       const std::vector<event::Change>& changes,
                                       const event::TournamentState& state);
/// The pages for everyone that change, by their titles; of very many the first, and how many more
/// there are. Empty when there are none.
[[nodiscard]] QString page_words(const std::vector<std::string>& titles);
/// The name of a kind as the audit of the server writes it: "result_reopened", "Result reopened".
[[nodiscard]] QString kind_words(const QString& kind);

[[nodiscard]] QString award_words(event::Award award);
[[nodiscard]] QString decider_words(standings::Decider decider);
[[nodiscard]] QString bracket_words(event::BracketKind kind);
/// "25-20 18-25 15-12", as on papers and in scripts.
[[nodiscard]] QString set_scores(const std::vector<event::SetScore>& sets);

}  // namespace courthand::client
