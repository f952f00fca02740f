// What becomes of pushed entries: the decision of the append transaction, as a pure function.
//
// Both twins of the store read what the plan needs under a lock, call `plan_append`, and write what
// it says.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::server {

/// Entries kept beside the record of one match: two devices that each wrote a whole match fit. A
/// device that sends more than this is out of order.
inline constexpr std::size_t most_branch_entries = 2 * most_entries;
/// Branches of one match up to which another fork of a device in its epoch is a branch of its own,
/// with an alert of its own; a device that forks without end fills the last one it has.
inline constexpr std::uint32_t most_forks = 32;
/// A backup is at most this many epochs of a match behind; one more is taken for nonsense.
inline constexpr Epoch most_lost_epochs = 64;

/// An entry that is already stored.
struct KnownEntry {
    MatchId match;
    Hash hash{};
    FeedPosition position = 0;
    std::uint32_t branch = 0;  ///< 0: in the record
};

/// An entry that is kept beside the record, as far as the plan may move it into the record.
struct BranchEntry {
    EntryId id;
    MatchId match;
    DeviceId device;
    Epoch epoch = 0;
    EntryNumber number = 0;
    Hash previous{};  ///< all zero when the store does not know it any more
    Hash hash{};
    std::uint32_t branch = 0;
    FeedPosition position = 0;
};

/// What one device sent under one epoch and could not join the record: a branch for each place
/// where it forked off.
struct BranchKey {
    MatchId match;
    DeviceId device;
    Epoch epoch = 0;
    friend auto operator<=>(const BranchKey&, const BranchKey&) = default;
};

/// How much of a match lies beside its record.
struct BranchCount {
    std::uint32_t branches = 0;  ///< number of the last branch
    std::size_t entries = 0;
};

struct HashOfHash {
    std::size_t operator()(const Hash& hash) const noexcept;
};

struct MatchContext {
    MatchHead head;
    BranchCount beside;
    /// Neither an entry nor a grant moved the head since the database was put back from a backup
    /// (or a standby took over): grants and entries that came later may have been lost with it.
    bool put_back = false;
};

/// What the store holds of the matches and ids that the items name.
struct AppendContext {
    FeedPosition head = 0;  ///< last feed position of the tournament
    std::unordered_map<MatchId, MatchContext> matches;
    std::unordered_map<EntryId, KnownEntry> known;
    /// Entries beside the records, by their own hash: at least the items themselves, those that an
    /// item follows, and those that follow a head or an item, directly or through each other.
    std::unordered_map<Hash, BranchEntry, HashOfHash> beside;
    /// Number of the last branch that there is of device and epoch, from 1 at each match.
    std::map<BranchKey, std::uint32_t> branches;
};

/// An epoch that begins with an entry and not with a grant.
struct EpochClaim {
    enum class How : std::uint8_t {
        first,      ///< nobody was granted the match, and the device sent its first entry
        recovered,  ///< the grant was lost with what the database had after its last backup
    };
    MatchId match;
    MatchHead head;  ///< epoch, grant and writer from now on
    How how = How::first;
    EntryNumber from = 0;

    /// Word of its row in the audit: nobody granted it, so no call has a row that says so.
    static constexpr const char* act = "begin-writing";
    /// By what it began.
    [[nodiscard]] const char* reason() const noexcept;
    /// Of its row in the audit.
    [[nodiscard]] std::string detail() const;
};

/// An entry moves from beside the record into it.
struct Promotion {
    MatchId match;
    EntryId id;
    std::uint32_t branch = 0;   ///< where it lay
    FeedPosition before = 0;    ///< position it had there
    FeedPosition position = 0;  ///< position in the record
};

/// The branches of a match are others now: its feed says so once, after what was promoted.
struct BranchesChanged {
    MatchId match;
    FeedPosition position = 0;
};

struct AppendPlan {
    std::vector<AppendResult> results;                ///< one for each item
    std::vector<std::size_t> entries;                 ///< items to insert into the record, in order
    std::vector<std::size_t> branches;                ///< items to keep on a branch, in order
    std::vector<Promotion> promotions;                ///< to be made after these, in order
    std::vector<BranchesChanged> branches_changed;    ///< items of the feed, kind `described`
    std::unordered_map<MatchId, MatchHead> heads;     ///< heads that changed
    std::unordered_map<MatchId, BranchCount> beside;  ///< counts that changed
    std::vector<EpochClaim> claims;
    FeedPosition head = 0;

    [[nodiscard]] bool nothing_to_write() const noexcept {
        return entries.empty() && branches.empty() && promotions.empty();
    }
};

[[nodiscard]] AppendPlan plan_append(AppendContext context, std::span<const AppendItem> items);

/// May the item be appended right behind this head, with no other look at the store?
[[nodiscard]] bool extends(const MatchHead& head, const AppendItem& item) noexcept;

/// `conflict`: the teams of the match are not planned anew any more.
[[nodiscard]] Status has_begun();

/// The head after a grant: unchanged when the device writes already, `conflict` when it may not.
[[nodiscard]] Result<MatchHead> next_writer(const MatchHead& head, const GrantWish& wish);

}  // namespace courthand::server
