// All papers of an event as one PDF: of each division its standings, pools, brackets and results.
//
// Pure: the same state and hash give the same bytes, on the same fonts. No name of a person stands
// on them.
#pragma once

#include <string>

#include "courthand/event/state.h"
#include "server/store/status.h"

namespace courthand::server::papers {

/// `head_hash`: of the last fact, 64 digits; its beginning stands at the foot of each page, for
/// courthand-verify.
[[nodiscard]] Result<std::string> event_papers(const event::TournamentState& state,
                                               const std::string& head_hash);

}  // namespace courthand::server::papers
