// How the board, the alerts and the watchers learn that a match has changed.
//
// Threading: every call comes from the one fold thread of the server, in feed order, after the
// change is durable in the store. The references in an event are valid during the call only; copy
// what must outlive it. An observer must not block, wait for the store or call back into the
// keeper of matches; it hands longer work to a thread of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/verdict.h"
#include "server/domain/ids.h"

namespace courthand {
struct Profile;
}

namespace courthand::server {

using ServerTime = std::chrono::system_clock::time_point;

/// What the server knows of one match, folded to its last entry. Owned by the keeper of matches.
struct LiveMatch {
    MatchKey key;
    std::uint32_t court = 0;            ///< 0: none assigned
    PerTeam<TeamId> teams{};            ///< nil: not known to this tournament's desk
    PerTeam<std::string> names{};
    std::string label;                  ///< "Pool A, match 3"; for people
    const Profile* profile = nullptr;   ///< null: unknown profile; then nothing is judged

    std::vector<Record> records;        ///< records[i] is entry number i + 1
    std::vector<Entry> entries;         ///< the facts that count, corrections resolved
    MatchState state{};
    VerdictList standing;               ///< armed and open, oldest first

    Epoch epoch = 0;                    ///< writer's term; 0 before the first grant
    DeviceId writer;                    ///< who may write now; nil: nobody
    Hash head{};                        ///< hash of the last entry
    ServerTime last_entry_at{};         ///< when the server stored the last entry
    std::uint32_t branches = 0;         ///< entries of fenced writers that wait for a person
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

/// Entries of a fenced writer, or of a fork, were kept on a branch. A person must choose.
struct BranchStored {
    const LiveMatch& match;
    DeviceId device;
    Epoch epoch = 0;
    EntryNumber first = 0;      ///< first number of the branch: where it leaves the record
    EntryNumber last = 0;
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
    /// Everything in the store at start has been folded; what follows is news.
    virtual void on_rebuilt() {}
};

}  // namespace courthand::server
