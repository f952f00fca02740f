// What a match came to as bytes for the store, and back, so that a finished match is neither kept
// in memory nor folded again.
//
// The bytes are those of memory: only the very program that wrote them reads them. Another one
// folds the record, which comes to the same.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "server/domain/match_observer.h"

namespace courthand::server {

/// What observers derived from the record, by their names.
using SnapshotParts = std::map<std::string, std::string>;

/// Nothing when this program may not keep snapshots: it cannot name itself.
[[nodiscard]] std::optional<MatchSnapshot> snapshot_of(const LiveMatch& match,
                                                       const SnapshotParts& parts);

struct RestoredMatch {
    LiveMatch live;  ///< without its record
    SnapshotParts parts;
};
/// Nothing when the snapshot is of another program, does not reach the end of the record, or
/// cannot be read: then the record must be folded.
[[nodiscard]] std::optional<RestoredMatch> restored_match(const StoredMatch& match,
                                                          const MatchSnapshot& snapshot);

}  // namespace courthand::server
