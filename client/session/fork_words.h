// What the table is told when the desk or the head official has decided about entries that the
// server keeps beside the record.
#pragma once

#include <cstddef>
#include <string>
#include <utility>

#include "client/journal/journal.h"
#include "client/session/match_session.h"
#include "courthand/v1/sync.pb.h"

namespace courthand::client {

/// True: the notice is such a decision, and nothing is recorded for it.
[[nodiscard]] bool settles_fork(const v1::RulingNotice& notice);
/// A sentence for the person at the table: what was decided, and what is to be done.
[[nodiscard]] std::string words_of_settled_fork(const MatchSheet& sheet,
                                                const v1::RulingNotice& notice);

/// What the journal keeps of such a decision: it is about the entries that were beside the record
/// then, and about no later ones.
[[nodiscard]] std::pair<std::string, std::string> kept_decision(const Journal& journal,
                                                                const std::string& match_id,
                                                                bool enter_again);
/// What was decided about entries of this device beside the record, as the end of a sentence about
/// them; what to do as long as nothing was.
[[nodiscard]] std::string words_of_decision(const Journal& journal, const std::string& match_id,
                                            std::size_t beside);

}  // namespace courthand::client
