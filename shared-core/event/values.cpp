#include "courthand/event/values.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace courthand::event {
namespace {

/// A number of exactly so many digits.
[[nodiscard]] std::optional<int> digits(std::string_view text, std::size_t from,
                                        std::size_t count) noexcept {
    if (text.size() < from + count) return std::nullopt;
    int value = 0;
    for (const char c : text.substr(from, count)) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return value;
}

constexpr std::size_t date_length = 10;

}  // namespace

std::optional<Date> date_of(std::string_view text) noexcept {
    if (text.size() != date_length || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = digits(text, 0, 4);
    const auto month = digits(text, 5, 2);
    const auto day = digits(text, 8, 2);
    if (!year || !month || !day) return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year{*year},
                                           std::chrono::month{static_cast<unsigned>(*month)},
                                           std::chrono::day{static_cast<unsigned>(*day)}};
    if (!date.ok()) return std::nullopt;
    const auto days = std::chrono::sys_days{date}.time_since_epoch().count();
    if (days < 1 || days > latest_date.days) return std::nullopt;
    return Date{static_cast<std::int32_t>(days)};
}

std::optional<LocalTime> local_time_of(std::string_view text) noexcept {
    if (text.size() != date_length + 6 || text[date_length] != 'T' || text[date_length + 3] != ':')
        return std::nullopt;
    const auto date = date_of(text.substr(0, date_length));
    const auto hour = digits(text, date_length + 1, 2);
    const auto minute = digits(text, date_length + 4, 2);
    if (!date || !hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
    return LocalTime{date->days * LocalTime::minutes_of_day + *hour * 60 + *minute};
}

std::string written(Date date) {
    const std::chrono::year_month_day civil{std::chrono::sys_days{std::chrono::days{date.days}}};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(civil.year()),
                       static_cast<unsigned>(civil.month()), static_cast<unsigned>(civil.day()));
}

std::string written(LocalTime time) {
    const std::int32_t minute = time.minutes % LocalTime::minutes_of_day;
    return fmt::format("{}T{:02}:{:02}", written(time.date()), minute / 60, minute % 60);
}

}  // namespace courthand::event
