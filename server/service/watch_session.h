// One watch: what to send next, from a snapshot or a cursor on. Knows no network.
//
// Not thread-safe: its stream calls it from one thread at a time. It keeps a position, a few
// numbers for each match and at most one page, never a queue; what it cannot send yet stays in the
// hub or in the store. Records are read from the store, a page at a time: the fold is not held up
// by them. With a snapshot go the rulings that its table has still to record, before its last part.
#pragma once

#include <deque>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "courthand/v1/sync.pb.h"
#include "server/domain/match_keeper.h"
#include "server/feed/hub.h"
#include "server/service/watch_cursor.h"

namespace courthand::server::service {

struct WatchedCourt {
    std::uint32_t court = 0;
};
using Watched = std::variant<MatchId, WatchedCourt>;

struct WatchWish {
    Watched watched;
    std::string cursor;  ///< as the client sent it; empty: snapshot
    /// Set for a table: a match that leaves its court is not sent on to it, but for the rulings and
    /// changes of one that it writes.
    std::optional<DeviceId> table{};
};

/// The wish in a request, or why it cannot be read.
[[nodiscard]] Result<WatchWish> watch_wish(const v1::WatchRequest& request);

class WatchSession {
  public:
    /// A watcher further behind than this is quicker with a snapshot.
    static constexpr FeedPosition most_items_behind = 50'000;

    struct Parts {
        TournamentId tournament;
        const MatchKeeper& keeper;
        const Hub& hub;
    };
    WatchSession(WatchWish wish, Parts parts) : wish_{std::move(wish)}, parts_{parts} {}

    enum class Next : std::uint8_t {
        messages,    ///< send these, then ask again
        wait,        ///< nothing now; ask again when the hub wakes
        read_store,  ///< call `read_store` where one may wait, then ask again
    };
    /// Adds to `out`; header is left to the caller.
    [[nodiscard]] Next next(std::vector<v1::WatchResponse>& out);
    /// Reads one page; a failure is that of the store. The first time it only waits for the fold
    /// to reach what is stored: who pushed before finds it in the snapshot.
    [[nodiscard]] Status read_store(MatchStore& store);
    /// What news the hub should wake this watch for.
    [[nodiscard]] Hub::Interest interest() const;
    /// Says that everything up to now was sent; only when `next` said `wait`.
    [[nodiscard]] v1::WatchResponse bookmark() const;

  private:
    /// Entries `next` to `last` of a match that are still to be read and sent.
    struct Stretch {
        MatchId match;
        EntryNumber next = 1;
        EntryNumber last = 0;
        bool part_sent = false;  ///< of a snapshot: its first part was sent
        [[nodiscard]] bool done() const noexcept { return next > last; }
    };

    void begin(std::vector<v1::WatchResponse>& out);
    void begin_snapshot();
    void begin_anew();
    [[nodiscard]] bool needs_record() const;
    [[nodiscard]] Status read_record(MatchStore& store);
    [[nodiscard]] Status read_feed(MatchStore& store);
    /// The rulings of that match go out as well, if a table may have to record one.
    void want_rulings(const LiveMatch& match);
    void want_rulings_elsewhere(std::uint32_t court);
    [[nodiscard]] Status read_rulings(MatchStore& store);
    void send_rulings(std::vector<v1::WatchResponse>& out);
    void snapshot_match(std::vector<v1::WatchResponse>& out);
    void fill_part(Stretch& stretch, v1::SnapshotPart& part);
    /// The next page of items into `pending_`.
    [[nodiscard]] Next more_items();
    /// Sends what can be sent; stops before an item that needs earlier entries from the store.
    void convert(std::vector<v1::WatchResponse>& out);
    void convert(const FeedItem& item, std::vector<v1::WatchResponse>& out);
    void convert_change(const FeedItem& item, std::vector<v1::WatchResponse>& out);
    void convert_ruling(const FeedItem& item, std::vector<v1::WatchResponse>& out) const;
    [[nodiscard]] bool needs_earlier(const FeedItem& item);
    void send_earlier(std::vector<v1::WatchResponse>& out);
    void add_entry(MatchId match, std::uint32_t branch, const std::string& bytes,
                   const std::string& signature, std::vector<v1::WatchResponse>& out) const;
    [[nodiscard]] bool watches(const FeedItem& item) const;
    [[nodiscard]] std::string cursor_at(FeedPosition position) const;

    WatchWish wish_;
    Parts parts_;
    bool fresh_ = false;  ///< the fold has what was stored before the watch began
    bool begun_ = false;
    bool cursor_unchecked_ = false;  ///< ahead of this server: only the store knows better
    bool snapshot_open_ = false;
    Hub::Feed feed_;  ///< the one this watch began with
    std::deque<Stretch> to_snapshot_;
    std::deque<MatchId> to_rule_;            ///< their rulings are still to be read and sent
    std::vector<v1::RulingNotice> rulings_;  ///< read from the store, to be sent next
    FeedPosition position_ = 0;
    std::deque<FeedItem> pending_;         ///< not yet converted
    FeedPosition pending_head_ = 0;        ///< where they lead to
    std::optional<Stretch> earlier_;       ///< to be sent before the next of them
    std::optional<FeedPage> page_;         ///< read from the store, not yet pending
    std::deque<StoredEntry> entries_;      ///< read from the store, of the present stretch
    std::map<MatchId, EntryNumber> sent_;  ///< last entry sent of each match
};

}  // namespace courthand::server::service
