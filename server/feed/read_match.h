// Folding a match from its record in the store.
#pragma once

#include <memory>

#include "server/domain/folded_match.h"
#include "server/store/match_store.h"

namespace courthand::server {

/// Reads the record up to `match.head.last` and folds it; shorter when the store has less, because
/// the database was put back meanwhile. Takes as long as the store takes.
[[nodiscard]] Result<std::unique_ptr<FoldedMatch>> read_match(MatchStore& store,
                                                              const StoredMatch& match);

}  // namespace courthand::server
