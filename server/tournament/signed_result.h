// When the signatures in the record of a table confirm its result, and what is said then. Pure.
#pragma once

#include <optional>
#include <string>

#include "courthand/event/results.h"
#include "server/domain/match_observer.h"
#include "server/tournament/known_record.h"

namespace courthand::server::tournament {

/// The result, when the event has results confirmed by signatures and the match is closed: over by
/// play, signed by both captains and the first referee, of the teams that the tournament has in it,
/// and without a result so far. What a person must weigh is left to the desk: a match under
/// protest, with a verdict that still stands, with a branch beside its record, one whose result
/// was once reopened or taken back, and one that was closed before signatures confirmed.
[[nodiscard]] std::optional<event::ResultConfirmed> signed_result(const KnownRecord& known,
                                                                  const LiveMatch& match);

/// Why a match that is closed is left to the desk all the same, as a clause that the desk shows;
/// empty: it is not, or nobody waits for its signatures, as long as one is missing or where there
/// is a result or the event has the desk confirm.
[[nodiscard]] std::string left_to_desk(const KnownRecord& known, const LiveMatch& match);

/// Under whose name it is said: those whose signatures close a match.
[[nodiscard]] std::string signing_author();

}  // namespace courthand::server::tournament
