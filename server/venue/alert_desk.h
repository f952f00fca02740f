// The alerts of a venue together with their store and the board: what holds is raised and shown,
// what happens to an alert is kept, what the book has forgotten is read back, and where another
// server was first, that server's word holds.
//
// Thread-safe. No lock is held while the store is waited for: the acts of people, the thread that
// watches over the venue, and whoever looks at the alerts never wait for each other's database.
// What each did meanwhile is found out afterwards, by the numbers of the steps.
//
// A ruling at the head seat is not an entry of the match record: the table is the only writer of
// its match. It is kept as a step of the alert, and in the same transaction as a notice in the feed
// of the match; the table then records the ruling as an entry of its own. The two must not be mixed
// up.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <mutex>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "courthand/v1/venue.pb.h"
#include "server/alerts/alert_book.h"
#include "server/alerts/alert_store.h"
#include "server/venue/board.h"
#include "server/venue/life_outbox.h"

namespace courthand::server::venue {

class AlertDesk {
  public:
    /// An act that lost against another server, or a life that moved on while it was read, is
    /// judged anew; more often points to a fault.
    static constexpr int most_tries = 4;

    /// `store` and `board` outlive the desk. `most`: alerts in memory.
    AlertDesk(alerts::AlertStore& store, Board& board,
              std::size_t most = alerts::AlertBook::most_alerts);

    // What holds. Each may wait for the store where it says so, and for nothing else.
    /// Waits. Reads the alerts that have not ended, in the place of everything that was known.
    [[nodiscard]] Status load(const alerts::Now& now);
    /// Ids of conditions of which nothing is known here: their lives may be in the store.
    [[nodiscard]] std::vector<alerts::AlertId> unknown(
        std::span<const alerts::Condition> conditions) const;
    /// Waits. Reads back the lives of these alerts, where there are any.
    [[nodiscard]] Status read_back(std::span<const alerts::AlertId> ids, const alerts::Now& now);
    void observe(const std::string& scope, std::vector<alerts::Condition> conditions,
                 const alerts::Now& now);
    void tick(const alerts::Now& now);
    /// Waits. Hands what is not kept yet to the store, in order. What the store will never take is
    /// logged and left.
    [[nodiscard]] Status keep(const alerts::Now& now);
    /// Waits. The alert has come to that step at some server: what this one has not, it reads.
    [[nodiscard]] Status hear(const alerts::AlertId& id, std::uint32_t number,
                              const alerts::Now& now);
    /// Forgets a match that is over, when all its alerts have ended.
    bool close(const std::string& scope, MatchId match);

    // What is known.
    /// Conditions of the alerts that have not ended.
    [[nodiscard]] std::vector<alerts::Condition> live() const;
    /// `match`: the one that is on the court now; nil: none.
    [[nodiscard]] alerts::CourtAlerts of_court(std::uint32_t court, MatchId match) const;
    [[nodiscard]] std::uint32_t open_alerts(MatchId match) const;
    /// A condition holds that found no room.
    [[nodiscard]] bool full() const;
    [[nodiscard]] bool knows(const alerts::AlertId& id) const;
    [[nodiscard]] std::size_t size() const;
    /// Steps that are not kept yet.
    [[nodiscard]] std::size_t waiting() const;

    /// Puts every alert that looks different on the board; its listeners are not told.
    void show();
    /// Where alerts looked different since this was asked last.
    struct Places {
        std::set<std::uint32_t> courts;
        std::set<MatchId> matches;
    };
    [[nodiscard]] Places take_places();

    // The acts of people. Each waits: it is kept, and not before the steps it follows from, and
    // shown on the board when it is answered. What stands against it, `invalid`, `not_found` or
    // `not_now` says.
    using Act = Result<v1::Alert>;
    [[nodiscard]] Act claim(const alerts::AlertId& id, const std::string& by,
                            const alerts::Now& now);
    [[nodiscard]] Act acknowledge(const alerts::AlertId& id, const std::string& by,
                                  const alerts::Now& now);
    [[nodiscard]] Act rule(const alerts::AlertId& id, bool accept, const std::string& note,
                           const std::string& by, const alerts::Now& now);
    [[nodiscard]] Act shelve(const alerts::AlertId& id, std::chrono::minutes time,
                             const std::string& note, const std::string& by,
                             const alerts::Now& now);

  private:
    using Decide = std::function<alerts::Acted(const alerts::AlertBook&)>;
    /// An act that is decided and not kept.
    struct Decided {
        std::vector<alerts::LifeEntry> before;  ///< what it follows from, not kept either
        alerts::LifeEntry entry;
        std::vector<FeedNotice> notices;
    };

    [[nodiscard]] Act act(const alerts::AlertId& id, const Decide& decide, const alerts::Now& now);
    [[nodiscard]] Act act_once(const alerts::AlertId& id, const Decide& decide,
                               const alerts::Now& now);
    [[nodiscard]] Result<Decided> decided(const alerts::AlertId& id, const Decide& decide,
                                          bool looked_up);
    [[nodiscard]] Status keep_decided(const Decided& act);
    [[nodiscard]] Act apply_kept(const alerts::LifeEntry& entry, const alerts::Now& now);
    [[nodiscard]] Status keep_each(const alerts::Now& now);
    [[nodiscard]] Status keep_alert(const alerts::AlertId& id, const alerts::Now& now);
    [[nodiscard]] Status yield_to_store(const alerts::AlertId& id, const alerts::Now& now);
    [[nodiscard]] std::uint64_t moves() const;
    void show_alert(const alerts::AlertId& id);

    alerts::AlertStore& store_;
    Board& board_;
    std::size_t most_;

    mutable std::mutex mutex_;  ///< everything below; never held over a call of the store
    alerts::AlertBook book_;
    LifeOutbox outbox_;
    /// Grows when the store's word came into the book: a life that was read before is worthless.
    std::uint64_t moves_ = 0;
    std::set<alerts::AlertId> dropped_;  ///< the store knew no more of them when it was read anew
    Places places_;
};

}  // namespace courthand::server::venue
