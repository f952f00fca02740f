// The values that stand in the facts of a tournament, besides texts and numbers.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/match/format.h"

namespace courthand::event {

/// A day of the calendar. Day 0, 1970-01-01, stands for none.
struct Date {
    std::int32_t days = 0;  ///< since 1970-01-01
    [[nodiscard]] constexpr bool given() const noexcept { return days != 0; }
    friend constexpr auto operator<=>(Date, Date) = default;
};

/// A moment as the clock in the hall shows it, in the tournament's time zone. Minute 0 is none.
struct LocalTime {
    std::int32_t minutes = 0;  ///< since 1970-01-01T00:00 of that clock
    [[nodiscard]] constexpr bool given() const noexcept { return minutes != 0; }
    [[nodiscard]] constexpr Date date() const noexcept { return {minutes / minutes_of_day}; }
    friend constexpr auto operator<=>(LocalTime, LocalTime) = default;

    static constexpr std::int32_t minutes_of_day = 24 * 60;
};

/// The year 2100: further ahead nobody plans a tournament.
inline constexpr Date latest_date{47'482};
inline constexpr LocalTime latest_time{latest_date.days * LocalTime::minutes_of_day};

/// "2026-11-28" and "2026-11-28T09:30" (ISO 8601); nothing when it is no such day or moment.
[[nodiscard]] std::optional<Date> date_of(std::string_view text) noexcept;
[[nodiscard]] std::optional<LocalTime> local_time_of(std::string_view text) noexcept;
[[nodiscard]] std::string written(Date date);
[[nodiscard]] std::string written(LocalTime time);

/// A format of its own, or that of what it belongs to.
struct FormatChoice {
    bool own = false;
    MatchFormat format{};  ///< the first value unless `own`
    friend bool operator==(const FormatChoice&, const FormatChoice&) = default;
};

/// Where a side of a match, an entrant or a work team comes from, by names.
struct Source {
    enum class Kind : std::uint8_t { none, team, place, winner, loser, better, worse, bye };
    Kind kind = Kind::none;
    std::string of;           ///< team, pool or match
    std::uint8_t place = 0;   ///< of `place`, from 1
    std::vector<Source> two;  ///< of `better` and `worse`: two sources that are neither
    friend bool operator==(const Source& x, const Source& y) {
        return x.kind == y.kind && x.of == y.of && x.place == y.place && x.two == y.two;
    }
};

/// Points of one set, by the sides of the match as the graph has them.
struct SetScore {
    std::uint16_t first = 0;
    std::uint16_t second = 0;
    friend constexpr bool operator==(SetScore, SetScore) = default;
};

/// An id of a match record; all zero is none.
struct RecordId {
    std::array<std::uint8_t, 16> bytes{};
    [[nodiscard]] bool given() const noexcept { return *this != RecordId{}; }
    friend constexpr bool operator==(const RecordId&, const RecordId&) = default;
};

/// SHA-256 of the last entry of a record; all zero is none.
struct HeadHash {
    std::array<std::uint8_t, 32> bytes{};
    [[nodiscard]] bool given() const noexcept { return *this != HeadHash{}; }
    friend constexpr bool operator==(const HeadHash&, const HeadHash&) = default;
};

}  // namespace courthand::event
