// The catalogue of alerts: what each kind is, how pressing, and how it ends. Data only.
//
// An alert exists only when a named person must act. What is merely good to know stands on the
// court cards; what the table can settle by itself is a prompt at the table and never comes here.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "courthand/rules/profile.h"
#include "courthand/rules/reason.h"

namespace courthand::server::alerts {

/// The alerts of the venue. Those of the rules are the core's, and are named there alone.
enum class VenueAlert : std::uint8_t {
    redesignation_made,
    record_forked,
    writer_recovered,
    court_not_seen,
    no_court_seen,
    take_over_asked,
    entries_refused,
    too_many_alerts,
    court_crowded,
};
inline constexpr std::size_t venue_alert_count =
    static_cast<std::size_t>(VenueAlert::court_crowded) + 1;

/// A kind of alert: one of the rules or one of the venue. Made of nothing it is none.
class Kind {
  public:
    using enum RuleAlert;
    using enum VenueAlert;

    constexpr Kind() noexcept = default;
    // Either name is a kind as it stands.
    constexpr Kind(RuleAlert alert) noexcept : place_{static_cast<std::size_t>(alert)} {}
    constexpr Kind(VenueAlert alert) noexcept
        : place_{rule_alert_count + static_cast<std::size_t>(alert)} {}

    /// From 1 on, those of the rules first; 0 for none.
    [[nodiscard]] constexpr std::size_t place() const noexcept { return place_; }

    friend constexpr bool operator==(Kind, Kind) noexcept = default;

  private:
    std::size_t place_ = 0;
};
inline constexpr std::size_t kind_count = rule_alert_count - 1 + venue_alert_count;

/// Who is shown it.
enum class Layer : std::uint8_t {
    prompt,  ///< the table alone
    alert,   ///< the board
};

enum class Clears : std::uint8_t {
    by_itself,  ///< when its condition ends
    when_seen,  ///< when a person has acknowledged it
    by_ruling,  ///< latched: the fault happened, and only a ruling ends it
};

/// How long a verdict that has come to count must go on standing before it is raised.
enum class OnceOpen : std::uint8_t {
    waits,    ///< as long as any condition of its kind
    presses,  ///< not at all: play has gone on with it
};

struct Row {
    Kind kind{};
    std::string_view word;  ///< code of alerts that no rule names: "court-not-seen"
    Severity severity = Severity::medium;
    Severity severity_after_rally = Severity::medium;  ///< once a rally was played with it
    Layer while_armed = Layer::prompt;  ///< who is shown a verdict that does not count yet
    Clears clears = Clears::by_itself;
    OnceOpen once_open = OnceOpen::waits;
    std::chrono::seconds raise_after{0};  ///< how long its condition must hold first
    std::chrono::seconds clear_after{0};  ///< and be gone before it clears
    std::chrono::seconds act_within{0};
    std::string_view text;       ///< of alerts that no rule names
    std::string_view reference;  ///< likewise
};

/// The catalogue, each row at the place of its kind.
[[nodiscard]] std::span<const Row, kind_count> all_rows() noexcept;
/// The row of a kind that is one.
[[nodiscard]] const Row& row_of(Kind kind) noexcept;
[[nodiscard]] std::optional<Kind> kind_of(std::string_view word) noexcept;
/// The kind of alert a verdict makes; nothing when it is settled at the table alone.
[[nodiscard]] std::optional<Kind> kind_of(Reason reason) noexcept;

/// How long after a set was announced its line-ups must be in: before the end of the interval, as
/// the profile says, or of the warm-up before set 1. Nobody is to be disturbed while a sheet may
/// still come.
[[nodiscard]] std::chrono::seconds lineup_due(const Rules& rules, std::uint8_t set) noexcept;

/// How long a court may be silent before it counts as not seen, and from when it presses more.
struct SilenceStep {
    std::chrono::seconds silent{};
    Severity severity{};
};
/// While a set is being played; longest silence last.
[[nodiscard]] std::span<const SilenceStep> silence_in_play() noexcept;
/// Before and between sets, when a table has little to send.
[[nodiscard]] std::span<const SilenceStep> silence_between_sets() noexcept;

/// One court has been silent long enough for an alert while every other has been silent this long:
/// then the network is down, not the court.
inline constexpr std::chrono::seconds silent_together{30};

/// An alert that was raised this often within `chatter_window` clears only after `chatter_clears`.
inline constexpr std::size_t chatter_raises = 3;
inline constexpr std::chrono::seconds chatter_window{60};
inline constexpr std::chrono::seconds chatter_clears{60};

}  // namespace courthand::server::alerts
