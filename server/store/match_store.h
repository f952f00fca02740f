// Where matches and their records are kept: the interface, with a PostgreSQL twin
// (store/postgres/) and a twin in memory for tests (store/memory_match_store.h).
//
// Thread-safe. Every call may take as long as the database takes; none is made from a network
// callback. Bytes of entries are stored and handed out exactly as they were received.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/format.h"
#include "server/domain/ids.h"
#include "server/store/status.h"
#include "wire/read_entry.h"

namespace courthand::server {

using ServerTime = std::chrono::system_clock::time_point;

/// More entries in one transaction make the others wait longer without saving much.
inline constexpr std::size_t most_entries_per_append = 1024;
/// A page of the feed; with entries of about 200 bytes it stays far below a message limit.
inline constexpr std::size_t most_items_per_page = 512;
/// A tournament of 100 courts over a week has fewer.
inline constexpr std::size_t most_matches = 20000;

struct Tournament {
    TournamentId id;
    std::string name;
    /// Made anew whenever the database may have gone back: put back from a backup, or a standby
    /// took over. A cursor of another one is worthless, and so is what was kept in memory.
    Uuid generation;
};

struct PlannedTeam {
    TeamId id;  ///< nil: not a team of the desk's list
    std::string name;
    std::string club;
    std::string colour;  ///< six hexadecimal digits, or empty
    friend bool operator==(const PlannedTeam&, const PlannedTeam&) = default;
};

/// Where a match stands for the desk, as far as the record does not say it.
enum class PlanStatus : std::uint8_t {
    scheduled = 1,
    called = 2,
    cancelled = 3,
    confirmed = 4,  ///< its result counts in the tournament's record, whatever the match's own says
};

/// What the desk says about a match. No fact of play.
struct MatchPlan {
    MatchKey key;
    std::uint32_t number = 0;  ///< in the tournament's plan; 0 when made: the next free one
    std::string name;          ///< in the record of the tournament; empty: it has no such match
    std::uint32_t court = 0;   ///< 0: not yet assigned
    PlannedTeam first;         ///< A and B are settled by the toss, not here
    PlannedTeam second;
    MatchFormat format{};
    std::string profile;  ///< rule profile id
    std::uint64_t profile_hash = 0;
    PlanStatus status = PlanStatus::scheduled;
    std::optional<ServerTime> scheduled_at;
    bool opened_at_table = false;  ///< the desk did not plan it: number stays 0
};

/// The writer's term and the end of the record.
struct MatchHead {
    Epoch epoch = 0;  ///< 0: nobody has been granted the match
    GrantId grant;
    DeviceId writer;
    bool self_granted = false;  ///< a table without network took epoch 1 by itself
    bool recovered = false;     ///< nobody granted it since the database was put back
    EntryNumber last = 0;       ///< number of the last entry
    Hash hash{};                ///< and its hash; of an empty record, `start_hash`
    friend bool operator==(const MatchHead&, const MatchHead&) = default;
};

/// So long a wish to take over stands before that of another device takes its place: the desk or
/// the head official has time to answer, and two devices that ask in turn write little.
inline constexpr std::chrono::seconds take_over_stands{60};

/// A device wishes to go on with a match in the place of the one that writes it.
struct TakeOverAsked {
    DeviceId device;
    ServerTime at{};
    friend bool operator==(const TakeOverAsked&, const TakeOverAsked&) = default;
};

struct StoredMatch {
    MatchPlan plan;
    MatchHead head;
    std::optional<TakeOverAsked> asked;
    std::vector<std::uint32_t> branches;  ///< numbers of its branches that have entries, ascending
};

/// An entry that was read when it arrived; null: whoever needs more than the bytes reads them.
using SharedEntry = std::shared_ptr<const wire::ReadEntry>;

/// One entry as it arrived, with what the store must check. Made by service/ of what was read.
struct AppendItem {
    MatchId match;
    EntryId id;
    DeviceId device;
    Epoch epoch = 0;
    GrantId grant;  ///< as the sender says; nil: not told
    EntryNumber number = 0;
    Hash previous{};
    Hash hash{};
    std::shared_ptr<const std::string> bytes;
    std::string signature;  ///< by the key of `device`, over `bytes`; empty: not signed
    SharedEntry read;       ///< `bytes` are its bytes, `hash` is its hash
};

enum class Fate : std::uint8_t {
    appended,
    already_had,  ///< same id, same hash
    branched,     ///< kept beside the record: of a fenced writer, or a fork
    invalid,      ///< not storable now; `cause` and `message` say why
    gap,          ///< the record needs `wanted` first
};

/// Why an entry was not kept. The same words as in courthand.v1.PushResult.Cause.
enum class Cause : std::uint8_t {
    none,
    unreadable,
    unknown_match,
    not_its_device,
    other_court,
    id_used,
    full,
};

struct AppendResult {
    Fate fate = Fate::invalid;
    EntryNumber wanted = 0;     ///< with `gap`: the number that would fit
    MatchHead head;             ///< after this item
    FeedPosition position = 0;  ///< of the item, when it was appended, branched or known
    std::uint32_t branch = 0;   ///< where it lies: number of the branch, from 1; 0: the record
    Cause cause = Cause::none;  ///< with `invalid`
    std::string message;
};

struct FeedItem {
    enum class Kind : std::uint8_t {
        entry = 1,       ///< appended to its match
        branch = 2,      ///< kept on a branch
        described = 3,   ///< plan, writer or branches of the match changed; no bytes
        ruling = 4,      ///< `bytes` is a serialized courthand.v1.RulingNotice for the table
        venue = 5,       ///< `bytes` belong to alerts/; no match watcher sees them
        tournament = 6,  ///< the tournament's record has changed; `bytes` belong to tournament/
    };
    FeedPosition position = 0;
    Kind kind = Kind::entry;
    MatchId match;
    EntryNumber number = 0;
    Epoch epoch = 0;
    EntryId id;
    DeviceId device;
    Hash hash{};
    std::uint32_t branch = 0;  ///< number of the branch at its match; 0: the record itself
    ServerTime stored_at{};
    std::shared_ptr<const std::string> bytes;
    std::string signature;  ///< of an entry; empty: not signed
    SharedEntry read;       ///< of an entry that this server has taken itself, until it is folded
};

/// What whoever watches matches is told of; the rest is for seats of their own.
[[nodiscard]] constexpr bool is_of_a_match(FeedItem::Kind kind) noexcept {
    return kind != FeedItem::Kind::venue && kind != FeedItem::Kind::tournament;
}

struct FeedPage {
    std::vector<FeedItem> items;  ///< ascending, all after the asked position
    FeedPosition head = 0;        ///< last position of the tournament when the page was read
    Uuid generation;              ///< of the database when the page was read
};

/// An entry of a record as it is stored.
struct StoredEntry {
    std::shared_ptr<const std::string> bytes;
    std::string signature;  ///< empty: not signed
    Hash hash{};
    DeviceId device;
    ServerTime stored_at{};
};

/// What a match came to, so that a server can start without folding its record again.
struct MatchSnapshot {
    MatchId match;
    EntryNumber last = 0;  ///< the record up to this entry
    Hash hash{};           ///< and the hash of that entry
    std::string form;      ///< names the program's way of writing `bytes`; another one is not read
    std::string bytes;
};

/// A tournament as it was at one moment.
struct TournamentView {
    FeedPosition head = 0;  ///< last position of the feed
    Uuid generation;
    std::vector<StoredMatch> matches;
    std::vector<MatchSnapshot> snapshots;
};

struct FeedQuery {
    TournamentId tournament;
    FeedPosition after = 0;
    FeedPosition up_to = ~FeedPosition{0};
    std::size_t most = most_items_per_page;
    std::vector<MatchId> matches;  ///< empty: all
};

/// A word for the feed that is no entry of a record.
struct FeedNotice {
    FeedItem::Kind kind = FeedItem::Kind::venue;  ///< `ruling`, `venue` or `tournament`
    MatchId match;                                ///< nil: concerns no single match
    EntryId id;  ///< made by the sender, the same on each retry: a second one adds nothing
    std::string bytes;
};

/// How a device comes to write a match.
struct GrantWish {
    enum class How : std::uint8_t {
        granted,     ///< only when nobody writes it, or the device already does
        taken_over,  ///< the writer's device is dead: it is fenced
    };
    MatchKey key;
    DeviceId device;
    How how = How::granted;
    std::string reason;  ///< kept with the grant
};

class MatchStore {
  public:
    virtual ~MatchStore() = default;

    // Tournaments
    virtual Result<std::vector<Tournament>> tournaments() = 0;
    /// `already_exists` when the id is taken.
    virtual Result<Tournament> create_tournament(TournamentId id, const std::string& name) = 0;

    // Matches of the desk. Each writes a feed item `described`; the answer is the plan as kept.
    /// `already_exists` when the id is taken.
    virtual Result<MatchPlan> create_match(const MatchPlan& plan) = 0;
    virtual Result<MatchPlan> change_match(const MatchPlan& plan) = 0;
    /// The same for a match whose record has no entry; `conflict` when it has one.
    virtual Result<MatchPlan> change_unbegun(const MatchPlan& plan) = 0;
    virtual Result<std::vector<StoredMatch>> matches(TournamentId tournament) = 0;
    virtual Result<StoredMatch> match(MatchKey key) = 0;

    // Writers
    /// Gives the device the next epoch, or its present one again. `conflict` when another writes.
    virtual Result<MatchHead> grant_writer(const GrantWish& wish) = 0;

    /// Keeps the wish of a device to take the match over, and answers the one that stands: a wish
    /// takes the place of another device's once that has stood for `take_over_stands`. Writes a
    /// feed item `described` when it is news.
    virtual Result<StoredMatch> ask_take_over(MatchKey key, DeviceId device) = 0;
    /// Answers the wish of this device: with consent it gets the next epoch and the present writer
    /// is fenced. `conflict` when that device does not ask (any more). Writes `described`.
    virtual Result<MatchHead> answer_take_over(MatchKey key, DeviceId device, bool consent,
                                               const std::string& reason) = 0;

    /// The database has gone back without another generation: gives it a new one, so that every
    /// table compares its journal and sends again what is missing.
    virtual Status renew_generation(TournamentId tournament) = 0;

    // Records
    /// Entries after `after`, one behind the other, `most` at most: an entry that is missing in the
    /// database ends them, so that none is taken for another.
    virtual Result<std::vector<StoredEntry>> read_record(MatchKey key, EntryNumber after,
                                                         std::size_t most) = 0;
    /// All of it read at one moment: what the feed adds after `head` is not in it, all else is.
    virtual Result<TournamentView> view(TournamentId tournament) = 0;
    /// The newest snapshot of each match that has one.
    virtual Result<std::vector<MatchSnapshot>> snapshots(TournamentId tournament) = 0;
    /// Keeps one for a match, in the place of an older one of the same match.
    virtual Status keep_snapshot(TournamentId tournament, const MatchSnapshot& snapshot) = 0;
    /// Appends in one transaction, in the given order; one answer for each item. Either all
    /// answers are durable or a status says why not.
    virtual Result<std::vector<AppendResult>> append(TournamentId tournament,
                                                     std::span<const AppendItem> items) = 0;
    virtual Result<FeedPage> read_feed(const FeedQuery& query) = 0;
    /// Adds to the feed; answers the position, also when the notice was there before.
    virtual Result<FeedPosition> publish(TournamentId tournament, const FeedNotice& notice) = 0;

    /// Called after each commit that added to a feed, of this or of another server, from any
    /// thread; it must not block nor call the store. An empty one ends it.
    using Listener = std::function<void(TournamentId)>;
    virtual void set_listener(Listener listener) = 0;
};

}  // namespace courthand::server
