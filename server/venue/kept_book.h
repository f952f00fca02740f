// The book of alerts together with its store: what the book says is kept, what it has forgotten is
// read back, and where another server was first, that server's word holds.
//
// Every call may wait for the database. Not thread-safe: writers take turns.
#pragma once

#include <deque>
#include <functional>
#include <set>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "server/alerts/alert_book.h"
#include "server/alerts/alert_store.h"

namespace courthand::server::venue {

class KeptBook {
  public:
    /// Life entries that wait for a database that is away; what comes on top is lost and logged.
    static constexpr std::size_t most_waiting = 10000;
    /// Life entries in one transaction.
    static constexpr std::size_t most_per_append = 500;
    /// An act that lost against another server is judged anew; more often points to a fault.
    static constexpr int most_tries = 4;

    /// `store` must outlive the book. `most`: alerts in memory.
    explicit KeptBook(alerts::AlertStore& store, std::size_t most = alerts::AlertBook::most_alerts);

    [[nodiscard]] const alerts::AlertBook& book() const noexcept { return book_; }

    /// Reads the alerts that have not ended, in the place of everything the book had.
    [[nodiscard]] Status load(const alerts::Now& now);
    /// Reads back the lives of these alerts, where there are any.
    [[nodiscard]] Status read_back(std::span<const alerts::AlertId> ids, const alerts::Now& now);

    void observe(const std::string& scope, std::vector<alerts::Condition> conditions,
                 const alerts::Now& now);
    void tick(const alerts::Now& now);
    /// Hands what waits to the store, in order. What the store will never take is logged and left.
    [[nodiscard]] Status keep(const alerts::Now& now);

    using Decide = std::function<alerts::Acted(const alerts::AlertBook&)>;
    using NoticesOf =
        std::function<std::vector<FeedNotice>(const alerts::Alert&, const alerts::LifeEntry&)>;
    using Act = std::variant<alerts::Alert, alerts::ActRefusal, Status>;
    /// An act of a person, durable with its notices on return, and not before what it follows from.
    [[nodiscard]] Act act(const alerts::AlertId& id, const Decide& decide,
                          const NoticesOf& notices_of, const alerts::Now& now);

    /// The alert has come to that step at some server: what this one has not, it reads.
    [[nodiscard]] Status hear(const alerts::AlertId& id, std::uint32_t number,
                              const alerts::Now& now);

    bool close(const std::string& scope, MatchId match) { return book_.close(scope, match); }
    void trim() { book_.trim(); }
    struct Changes {
        std::set<alerts::AlertId> alerts;
        std::set<std::uint32_t> courts;
        std::set<MatchId> matches;
    };
    [[nodiscard]] Changes take_changes();
    [[nodiscard]] std::size_t waiting() const noexcept { return waiting_.size(); }

  private:
    void wait_to_keep(std::vector<alerts::LifeEntry> entries);
    [[nodiscard]] Status keep_each(const alerts::Now& now);
    [[nodiscard]] Status keep_alert(const alerts::AlertId& id, const alerts::Now& now);
    [[nodiscard]] Status yield_to_store(const alerts::AlertId& id, const alerts::Now& now);
    void drop_waiting(const alerts::AlertId& id);

    alerts::AlertStore& store_;
    std::size_t most_;
    alerts::AlertBook book_;
    std::set<alerts::AlertId> dropped_;  ///< the store knew no more of them when it was read anew
    std::deque<alerts::LifeEntry> waiting_;  ///< in the book, not kept yet
    std::size_t lost_ = 0;                   ///< since the store last took everything
};

}  // namespace courthand::server::venue
