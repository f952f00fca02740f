// The book of alerts: a fold of conditions, acts of people and ticks into alerts and their lives.
//
// No clock, no store, no thread: time comes in as a parameter, and every change that must outlive
// a restart comes out as a life entry. Reading the life entries back gives the same book; feeding
// the same conditions again then changes nothing.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "server/alerts/condition.h"

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
    std::optional<Instant> shelved_until;
    std::uint32_t life = 0;             ///< number of its last life entry
    std::optional<Instant> gone_since;  ///< its condition no longer holds
    bool may_reopen = false;            ///< ended, and its condition has been gone since
    std::vector<Instant> raised;        ///< within the chatter window

    [[nodiscard]] bool live() const noexcept {
        return state != State::ruled && state != State::cleared;
    }
};

/// Why an act of a person did nothing.
struct ActRefusal {
    enum class Kind : std::uint8_t { unknown, ended, not_allowed, bad_request };
    Kind kind = Kind::unknown;
    std::string message;
    std::string cure;
};

using Acted = std::variant<LifeEntry, ActRefusal>;

class AlertBook {
  public:
    /// More would be a fault of the program, not of the players; further ones are not raised.
    static constexpr std::size_t most_alerts = 20000;
    static constexpr std::size_t longest_note = 500;
    static constexpr std::size_t longest_name = 64;
    static constexpr std::chrono::minutes shelve_at_most{60};

    /// Everything that holds now in one scope (a match, or the watch over the courts); what the
    /// scope told before and does not tell now has ended.
    std::vector<LifeEntry> observe(const std::string& scope, std::vector<Condition> conditions,
                                   Instant now);
    /// Lets waiting times pass.
    std::vector<LifeEntry> tick(Instant now);

    /// The acts of people. They change nothing by themselves: keep the entry, then `apply` it.
    [[nodiscard]] Acted claim(const AlertId& id, const std::string& by, Instant now) const;
    [[nodiscard]] Acted acknowledge(const AlertId& id, const std::string& by, Instant now) const;
    [[nodiscard]] Acted rule(const AlertId& id, bool accept, const std::string& note,
                             const std::string& by, Instant now) const;
    [[nodiscard]] Acted shelve(const AlertId& id, std::chrono::minutes time,
                               const std::string& note, const std::string& by, Instant now) const;

    /// Takes one life entry into the book: of an act just kept, or read back at the start.
    void apply(const LifeEntry& entry);

    [[nodiscard]] const std::map<AlertId, Alert>& alerts() const noexcept { return alerts_; }
    [[nodiscard]] const Alert* find(const AlertId& id) const noexcept;
    /// Ids of alerts that look different since the last call.
    [[nodiscard]] std::set<AlertId> take_changed();

  private:
    struct Holding {
        Condition condition;
        Instant since{};
        std::string scope;
    };

    [[nodiscard]] std::vector<LifeEntry> settle(Instant now);
    void settle_holding(const AlertId& id, const Holding& holding, Instant now,
                        std::vector<LifeEntry>& out);
    void settle_alert(const AlertId& id, Alert& alert, Instant now, std::vector<LifeEntry>& out);
    void keep(LifeEntry entry, std::vector<LifeEntry>& out);
    [[nodiscard]] LifeEntry next_entry(const AlertId& id, LifeEntry::What what, Instant now) const;
    [[nodiscard]] std::variant<const Alert*, ActRefusal> to_act_on(const AlertId& id,
                                                                   const std::string& by,
                                                                   const std::string& note) const;

    std::map<AlertId, Holding> holding_;
    std::map<AlertId, Alert> alerts_;
    std::set<AlertId> changed_;
};

/// Live alerts first by severity, then by age; ended ones after them.
[[nodiscard]] bool before_on_the_board(const Alert& one, const Alert& other) noexcept;

}  // namespace courthand::server::alerts
