// The book of alerts: a fold of conditions, acts of people and ticks into alerts and their lives.
//
// No clock, no store, no thread: time comes in as a parameter, and every change that must outlive
// a restart comes out as a life entry. Reading the life entries back gives the same book; feeding
// the same conditions again then changes nothing.
//
// In memory are the alerts that live, the ended ones whose condition still holds (so that nothing
// fires again), and a few more. The others are read back from the store when their condition comes
// again: whoever observes asks `unknown` first.
#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "server/alerts/condition.h"
#include "server/alerts/counted_map.h"
#include "server/store/status.h"

namespace courthand::server::alerts {

enum class State : std::uint8_t { open, claimed, ruled, cleared, shelved };

/// One step in the life of an alert, as it is kept.
struct LifeEntry {
    enum class What : std::uint8_t {
        opened,
        acknowledged,
        claimed,
        ruled,
        cleared,
        shelved,
        returned,  ///< from the shelf
    };
    AlertId id;
    std::uint32_t number = 0;  ///< of this alert, from 1 without gap
    What what = What::opened;
    Instant at{};
    std::string by;  ///< name or function; "table" for a ruling in the record
    std::string note;
    bool accepted = false;               ///< with `ruled`
    Instant until{};                     ///< with `shelved`
    std::optional<Condition> condition;  ///< with `opened`
    bool ends = false;                   ///< the alert has ended with it
    friend bool operator==(const LifeEntry&, const LifeEntry&) = default;
};

struct Alert {
    Condition condition;
    State state = State::open;
    Instant since{};
    bool acknowledged = false;
    std::string claimed_by;
    std::string note;
    std::optional<bool> accepted;
    std::optional<Instant> shelved_until;  ///< for people
    std::optional<Steady> returns_at;      ///< from the shelf
    std::uint32_t life = 0;                ///< number of its last life entry
    std::optional<Steady> gone_since;      ///< its condition no longer holds
    bool may_reopen = false;               ///< ended, and its condition has been gone since
    std::vector<Steady> raised;            ///< within the chatter window

    [[nodiscard]] bool live() const noexcept {
        return state != State::ruled && state != State::cleared;
    }
};

/// What an act of a person comes to: a step to be kept, or why it did nothing (`invalid`,
/// `not_found`, `not_now`).
using Acted = Result<LifeEntry>;

/// The live alerts of a court at one glance.
struct CourtAlerts {
    std::uint32_t open = 0;         ///< of its match and of the court itself, shelved ones too
    std::optional<Severity> worst;  ///< of those in sight
    std::uint32_t of_others = 0;    ///< of other matches of the court, shelved ones too
    friend bool operator==(const CourtAlerts&, const CourtAlerts&) = default;
};

class AlertBook {
  public:
    /// In memory at once. A hall of 1,000 courts with twenty alerts each; more would be a fault of
    /// the program, not of the players. Further ones are not raised until others end.
    static constexpr std::size_t most_alerts = 20000;
    /// Cleared alerts that are remembered a little longer, for the list of what has just ended.
    static constexpr std::size_t most_cleared = 256;
    static constexpr std::size_t longest_note = 500;
    static constexpr std::size_t longest_name = 64;
    static constexpr std::chrono::minutes shelve_at_most{60};

    explicit AlertBook(std::size_t most = most_alerts) : most_{most} {}

    /// Everything that holds now in one scope (a match, or the watch over the courts); what the
    /// scope told before and does not tell now has ended. Costs what the scope tells, no more.
    std::vector<LifeEntry> observe(const std::string& scope, std::vector<Condition> conditions,
                                   const Now& now);
    /// Lets waiting times pass: of the alerts that wait for something, no others.
    std::vector<LifeEntry> tick(const Now& now);
    /// Forgets the scope of a match that is over, when all its alerts have ended; false when one
    /// still lives or is still to be raised.
    bool close(const std::string& scope, MatchId match);
    /// Forgets the oldest cleared alerts. Take the changed ones first.
    void trim();
    /// Forgets one that has ended and whose condition does not hold: it was only looked up.
    void let_go(const AlertId& id);

    /// Ids of conditions that the book has neither as alert nor as holding: their lives may be in
    /// the store, and must be applied before the conditions are observed.
    [[nodiscard]] std::vector<AlertId> unknown(std::span<const Condition> conditions) const;

    /// The acts of people. They change nothing by themselves: keep the entry, then `apply` it.
    [[nodiscard]] Acted claim(const AlertId& id, const std::string& by, const Now& now) const;
    [[nodiscard]] Acted acknowledge(const AlertId& id, const std::string& by, const Now& now) const;
    [[nodiscard]] Acted rule(const AlertId& id, bool accept, const std::string& note,
                             const std::string& by, const Now& now) const;
    [[nodiscard]] Acted shelve(const AlertId& id, std::chrono::minutes time,
                               const std::string& note, const std::string& by,
                               const Now& now) const;

    /// Takes one life entry into the book: of an act just kept, or read back from the store. An
    /// entry of an alert that nobody opened says nothing and is left out.
    void apply(const LifeEntry& entry, const Now& now);
    /// Takes the whole life of an alert from the store in the place of what the book had: another
    /// server was first.
    void replace(const AlertId& id, std::span<const LifeEntry> life, const Now& now);

    [[nodiscard]] const std::map<AlertId, Alert>& alerts() const noexcept { return alerts_.all(); }
    [[nodiscard]] std::size_t size() const noexcept { return alerts_.size(); }
    [[nodiscard]] const Alert* find(const AlertId& id) const noexcept;
    /// Alerts of a match that have not ended.
    [[nodiscard]] std::uint32_t open_alerts(MatchId match) const;
    /// `match`: the one that is on the court now; nil: none.
    [[nodiscard]] CourtAlerts of_court(std::uint32_t court, MatchId match) const;
    /// True: a condition holds that found no room.
    [[nodiscard]] bool full() const noexcept { return !without_room_.empty(); }

    /// How many alerts and conditions may change by time alone.
    [[nodiscard]] std::size_t waiting() const noexcept { return waiting_.size(); }

    /// How many alerts and conditions were looked at so far: what one match brings must not cost
    /// more where there are others.
    [[nodiscard]] std::uint64_t looks() const noexcept {
        return alerts_.looks() + holding_.looks();
    }

    /// Ids of alerts that look different since the last call.
    [[nodiscard]] std::set<AlertId> take_changed();
    /// Courts and matches whose live alerts did.
    [[nodiscard]] std::set<std::uint32_t> take_changed_courts();
    [[nodiscard]] std::set<MatchId> take_changed_matches();

  private:
    struct Holding {
        Condition condition;
        Steady since{};
        std::string scope;
    };
    using Lives = std::vector<LifeEntry>;

    void settle(const AlertId& id, const Now& now, Lives& out);
    [[nodiscard]] bool settle_holding(const AlertId& id, const Holding& holding, const Now& now,
                                      Lives& out);
    [[nodiscard]] bool settle_gone(const AlertId& id, Alert& alert, const Now& now, Lives& out);
    [[nodiscard]] bool has_room(Kind kind) const noexcept;
    void keep(LifeEntry entry, const Now& now, Lives& out);
    void open(Alert& alert, const LifeEntry& entry, Steady at);
    void forget(const AlertId& id);
    [[nodiscard]] LifeEntry next_entry(const AlertId& id, LifeEntry::What what,
                                       const Now& now) const;
    [[nodiscard]] Result<const Alert*> to_act_on(const AlertId& id, const std::string& by,
                                                 const std::string& note) const;
    /// The alert leaves its places in the indexes and comes back as it is then.
    void take_out(const AlertId& id, const Alert& alert);
    void put_in(const AlertId& id, const Alert& alert);
    void tell_places(const Condition& condition);

    std::size_t most_;
    CountedMap<AlertId, Holding> holding_;
    std::map<std::string, std::set<AlertId>> scopes_;  ///< what each scope tells
    CountedMap<AlertId, Alert> alerts_;
    std::map<MatchId, std::set<AlertId>> of_match_;  ///< all in memory
    std::map<std::uint32_t, std::set<AlertId>> live_on_court_;
    std::set<AlertId> waiting_;       ///< may change by time alone
    std::set<AlertId> without_room_;  ///< held, not raised
    std::deque<AlertId> cleared_;     ///< oldest first
    std::set<AlertId> changed_;
    std::set<std::uint32_t> changed_courts_;
    std::set<MatchId> changed_matches_;
};

/// Live alerts first by severity, then by age; ended ones after them.
[[nodiscard]] bool before_on_the_board(const Alert& one, const Alert& other) noexcept;

}  // namespace courthand::server::alerts
