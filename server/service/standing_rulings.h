// The rulings that the table of a match has still to record: those on verdicts that still stand.
#pragma once

#include <vector>

#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"
#include "courthand/v1/sync.pb.h"
#include "server/store/match_store.h"

namespace courthand::server::service {

/// Of the feed of one match up to a position, oldest first. `standing`: its verdicts that stand. Of
/// several on one verdict the last; none that the record had since, even when that was struck.
/// `rules`: those of the match; they outlive the call.
/// Reads the store page by page; call it where one may wait. A failure is that of the store.
[[nodiscard]] Result<std::vector<v1::RulingNotice>> standing_rulings(MatchStore& store,
                                                                     MatchKey key,
                                                                     const Rules& rules,
                                                                     const VerdictList& standing,
                                                                     FeedPosition up_to);

}  // namespace courthand::server::service
