// Folding a match from its record in the store.
#pragma once

#include <memory>

#include "server/domain/folded_match.h"
#include "server/store/match_store.h"

namespace courthand::server {

/// Reads the record up to `match.head.last` and folds it. When the store has less it is folded as
/// far as it goes and given up, with the number of the entry that is missing. Takes as long as the
/// store takes.
[[nodiscard]] Result<std::unique_ptr<FoldedMatch>> read_match(MatchStore& store,
                                                              const StoredMatch& match);

}  // namespace courthand::server
