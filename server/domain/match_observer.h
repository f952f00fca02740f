// How the board, the alerts and the watchers learn that a match has changed.
//
// Threading: every call comes from the one fold thread of the server, in feed order, after the
// change is durable in the store. The references in an event are valid during the call only; copy
// what must outlive it. An observer must not block, wait for the store or call back into the
// keeper of matches; it hands longer work to a thread of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/verdict.h"
#include "server/domain/ids.h"
#include "server/store/match_store.h"

namespace courthand {
struct Profile;
}

namespace courthand::server {

/// What the server knows of one match, folded to its last entry. Owned by the keeper of matches.
struct LiveMatch {
    MatchKey key;
    MatchPlan plan;                    ///< court, teams, format, profile id
    const Profile* profile = nullptr;  ///< null: unknown profile; then nothing is judged
    MatchHead head;                    ///< writer's term and end of the record

    std::vector<Record> records;     ///< records[i] is entry number i + 1
    std::vector<std::string> texts;  ///< words beside the facts: serialized FactText, or empty
    std::vector<std::shared_ptr<const std::string>> bytes;  ///< as they arrived
    std::vector<Entry> entries;  ///< the facts that count, corrections resolved
    MatchState state{};
    VerdictList standing;    ///< armed and open, oldest first
    std::string unreadable;  ///< why an entry could not be folded; empty: all well

    ServerTime last_entry_at{};           ///< when the server stored the last entry
    std::uint32_t branch_entries = 0;     ///< entries of fenced writers that wait for a person
    std::vector<std::uint32_t> branches;  ///< numbers of the branches that have entries, ascending
    std::optional<TakeOverAsked> asked;   ///< who wishes to go on in the writer's place
};

/// A verdict together with the record entry that raised, opened, cleared or ruled it.
struct RaisedVerdict {
    EntryNumber entry = 0;
    Verdict verdict;
};

/// Entries were appended to a match, its place in the plan changed, or it was rebuilt at start.
struct MatchChanged {
    enum class Cause : std::uint8_t {
        appended,   ///< new entries; `raised` holds what they raised, in order
        corrected,  ///< as appended, and a correction among them changed earlier entries: whatever
                    ///< was derived from the match must be taken afresh from `match.standing`
        described,  ///< court, teams, label, profile or writer changed; no new entry
        rebuilt,    ///< read from the store at the start of the server; nothing is news
    };
    Cause cause = Cause::appended;
    const LiveMatch& match;
    EntryNumber first_new = 0;  ///< 0: no new entry
    EntryNumber last_new = 0;
    std::span<const RaisedVerdict> raised;
    FeedPosition position = 0;
};

/// One entry of a fenced writer, or of a fork, was kept on a branch. A person must choose. Comes
/// once for each entry, also while the server rebuilds: one alert for each branch is enough.
struct BranchStored {
    const LiveMatch& match;
    std::uint32_t branch = 0;  ///< number of the branch at its match, from 1
    DeviceId device;
    Epoch epoch = 0;
    EntryNumber number = 0;  ///< of this entry
    ServerTime stored_at{};
    FeedPosition position = 0;
};

/// A device spoke with the server: it pushed, watched or asked. At most once a second per device.
struct DeviceSeen {
    TournamentId tournament;
    DeviceId device;
    std::uint32_t court = 0;  ///< 0: bound to no court
    ServerTime at{};
};

class MatchObserver {
  public:
    virtual ~MatchObserver() = default;
    virtual void on_match_changed(const MatchChanged& change) = 0;
    virtual void on_branch_stored(const BranchStored&) {}
    virtual void on_device_seen(const DeviceSeen&) {}
    /// A notice of kind `ruling` or `venue` (store/match_store.h) has its place in the feed.
    virtual void on_notice(const FeedItem&) {}
    /// Everything in the store at start has been folded; what follows is news.
    virtual void on_rebuilt() {}
};

}  // namespace courthand::server
