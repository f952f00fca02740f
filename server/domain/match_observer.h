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
#include <string_view>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/signatures.h"
#include "courthand/match/state.h"
#include "courthand/match/team.h"
#include "courthand/rules/verdict.h"
#include "server/domain/ids.h"
#include "server/store/match_store.h"
#include "wire/fold_record.h"

namespace courthand {
struct Profile;
}

namespace courthand::server {

/// A record as far as it is held in memory. Facts are kept once: `records` belong to the fold.
struct MatchRecord {
    std::span<const Record> records;  ///< records[i] is entry number i + 1; ends where unreadable
    // What the fold made of them: nobody judges them again.
    std::span<const wire::FactStep> steps;                  ///< of each fact that counts
    std::span<const wire::VerdictStep> verdicts;            ///< in the same order
    std::vector<std::shared_ptr<const std::string>> bytes;  ///< as they arrived; bytes[i] likewise

    /// Null when there is no such entry.
    [[nodiscard]] const std::string* bytes_of(EntryNumber number) const noexcept {
        return number >= 1 && number <= bytes.size() ? bytes[number - 1].get() : nullptr;
    }
};

/// How a team is called on its last list in the record. Empty: the list does not say.
struct TeamWords {
    std::string name;
    std::string club;
    std::string colour;
    friend bool operator==(const TeamWords&, const TeamWords&) = default;
};

/// What the server knows of one match, folded to its last entry. Owned by the keeper of matches.
struct LiveMatch {
    MatchKey key;
    MatchPlan plan;                      ///< court, teams, format, profile id
    const Profile* profile = nullptr;    ///< null: unknown profile; then nothing is judged
    MatchHead head;                      ///< writer's term and end of the record
    std::optional<TakeOverAsked> asked;  ///< a device wishes to go on with the match

    MatchState state{};
    VerdictList standing;      ///< armed and open, oldest first
    SignerSet signed_by;       ///< who has signed the result as it stands; nobody while it is open
    bool protested = false;    ///< a team has announced a protest
    PerTeam<TeamWords> words;  ///< from the team lists in the record
    std::string unreadable;    ///< why an entry could not be folded; empty: all well

    ServerTime last_entry_at{};  ///< when the server stored the last entry
    /// When the server stored the entry that closed it, which a remark or a protest behind it
    /// leaves; none while it is not closed.
    ServerTime closed_at{};
    std::vector<std::uint32_t> branches;  ///< numbers of branches that wait for a person, ascending

    /// Null while the match rests: then its entries are in the store only.
    std::shared_ptr<const MatchRecord> record;

    /// Over, and signed by those without whom it is not closed.
    [[nodiscard]] bool closed() const { return missing_to_close(signed_by).empty(); }
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
        rebuilt,    ///< read from the store, at the start of the server or because the database was
                    ///< put back; nothing is news
    };
    Cause cause = Cause::appended;
    const LiveMatch& match;
    EntryNumber first_new = 0;  ///< 0: no new entry
    EntryNumber last_new = 0;
    std::span<const RaisedVerdict> raised;
    FeedPosition position = 0;
    /// With `rebuilt` from a snapshot: what this observer gave for it. `match.record` is null.
    std::string_view snapshot_part{};
};

/// One entry of a fenced writer, or of a fork, was kept on a branch. A person must choose. Comes
/// once for each new entry; which branches there were at the start, `LiveMatch::branches` says.
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
    /// Every match is told anew as `rebuilt`, what is not told again is no more: the server starts,
    /// or the database was put back.
    virtual void on_begun_anew() {}
    /// Names the observer's part of snapshots, for ever the same. Empty: it has none.
    [[nodiscard]] virtual std::string_view snapshot_name() const { return {}; }
    /// What the observer derived from the record of a match: it is given back by `snapshot_part`
    /// when the server starts. What plan and state say need not be in it.
    [[nodiscard]] virtual std::string snapshot_part(MatchId) { return {}; }
    /// The match rests from now on: its record is in the store only, until it goes on.
    virtual void on_rests(MatchId) {}
    /// Everything in the store has been told; what follows is news.
    virtual void on_rebuilt() {}
};

}  // namespace courthand::server
