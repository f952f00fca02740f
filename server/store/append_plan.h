// What becomes of pushed entries: the decision of the append transaction, as a pure function.
//
// Both twins of the store read the heads under a lock, call `plan_append`, and write what it says.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::server {

/// An entry or branch row that is already stored.
struct KnownEntry {
    MatchId match;
    Hash hash{};
    FeedPosition position = 0;
    std::uint32_t branch = 0;  ///< 0: in the record
};

/// What one device sent under one epoch and could not join the record.
struct BranchKey {
    MatchId match;
    DeviceId device;
    Epoch epoch = 0;
    friend auto operator<=>(const BranchKey&, const BranchKey&) = default;
};

struct HashOfHash {
    std::size_t operator()(const Hash& hash) const noexcept;
};

/// What the store holds of the matches and ids that the items name.
struct AppendContext {
    FeedPosition head = 0;  ///< last feed position of the tournament
    std::unordered_map<MatchId, MatchHead> heads;
    std::unordered_map<EntryId, KnownEntry> known;
    /// Hashes of all branch rows of these matches: a later entry may follow one of them.
    std::unordered_set<Hash, HashOfHash> branch_hashes;
    std::map<BranchKey, std::uint32_t> branches;  ///< their numbers, from 1 at each match
};

struct AppendPlan {
    std::vector<AppendResult> results;             ///< one for each item
    std::vector<std::size_t> entries;              ///< items to insert into the record, in order
    std::vector<std::size_t> branches;             ///< items to keep on a branch, in order
    std::unordered_map<MatchId, MatchHead> heads;  ///< heads that changed
    std::vector<MatchId> first_grants;             ///< matches whose first writer claimed epoch 1
    FeedPosition head = 0;
};

[[nodiscard]] AppendPlan plan_append(AppendContext context, std::span<const AppendItem> items);

/// The head after a grant: unchanged when the device writes already, `conflict` when it may not.
[[nodiscard]] Result<MatchHead> next_writer(const MatchHead& head, const GrantWish& wish);

}  // namespace courthand::server
