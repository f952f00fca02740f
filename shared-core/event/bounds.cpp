#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "courthand/event/fact_fields.h"

namespace courthand::event {
namespace {

using Wrong = std::optional<std::string>;

[[nodiscard]] Wrong wrong(const std::string& text, const Bounds<std::string>& bounds) {
    if (text.empty()) return bounds.may_be_empty ? Wrong{} : Wrong{"is empty"};
    if (text.size() > bounds.most_bytes)
        return fmt::format("{} bytes, at most {} are allowed", text.size(), bounds.most_bytes);
    if (bounds.letters == Letters::word && !is_word(text))
        return "has other signs than letters, digits and - . _ + /";
    if (bounds.letters == Letters::colour && !is_colour(text))
        return "is not six hexadecimal digits";
    for (const char c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) return "has a control character";
    return {};
}

template <Count Value>
[[nodiscard]] Wrong wrong(const Value& value, const Bounds<Value>& bounds) {
    if (value >= bounds.least && value <= bounds.most) return {};
    return fmt::format("{} is not within {} to {}", value, bounds.least, bounds.most);
}

template <class Value>
[[nodiscard]] Wrong wrong_moment(std::int32_t value, std::int32_t latest,
                                 const Bounds<Value>& bounds) {
    if (value == 0) return bounds.may_be_none ? Wrong{} : Wrong{"is not given"};
    if (value < 0 || value > latest) return "is not between 1970 and 2099";
    return {};
}
[[nodiscard]] Wrong wrong(Date date, const Bounds<Date>& bounds) {
    return wrong_moment(date.days, latest_date.days, bounds);
}
[[nodiscard]] Wrong wrong(LocalTime time, const Bounds<LocalTime>& bounds) {
    return wrong_moment(time.minutes, latest_time.minutes, bounds);
}

[[nodiscard]] Wrong wrong(SetScore score, const Bounds<SetScore>&) {
    if (score.first <= most_points && score.second <= most_points) return {};
    return fmt::format("more than {} points in a set", most_points);
}

/// A format as a script can say it.
[[nodiscard]] Wrong wrong(const FormatChoice& choice, const Bounds<FormatChoice>&) {
    const MatchFormat& f = choice.format;
    if (!choice.own) return f == MatchFormat{} ? Wrong{} : Wrong{"is given and not its own"};
    if (f.sets < 1 || f.sets > MatchFormat::most_sets || f.all_sets_played > 1)
        return fmt::format("{} sets, 1 to {} are allowed", f.sets, MatchFormat::most_sets);
    if (f.all_sets_played == 0 && f.sets % 2 == 0)
        return "an even number of sets can end in a draw";
    const bool low = f.points == 0 || f.deciding_points == 0 || f.lead == 0;
    const auto highest =
        std::max({f.points, f.deciding_points, f.cap, f.deciding_cap, f.start_score, f.switch_at});
    if (low || highest > most_points || f.lead > most_lead)
        return fmt::format("has points beyond 1 to {} or a lead beyond 1 to {}", most_points,
                           most_lead);
    return {};
}

[[nodiscard]] Wrong wrong_name_in(const Source& source) {
    const bool team = source.kind == Source::Kind::team;
    return wrong(source.of, team ? a_name : a_word);
}

[[nodiscard]] Wrong wrong(const Source& source, const Bounds<Source>& bounds) {
    switch (source.kind) {
        case Source::Kind::none:
            return bounds.may_be_none ? Wrong{} : Wrong{"is not given"};
        case Source::Kind::place:
            if (source.place == 0) return "names place 0";
            return wrong_name_in(source);
        case Source::Kind::team:
        case Source::Kind::winner:
        case Source::Kind::loser:
            return wrong_name_in(source);
        case Source::Kind::better:
        case Source::Kind::worse:
            if (source.two.size() != 2) return "does not compare two sources";
            for (const Source& one : source.two) {
                const bool simple =
                    one.kind == Source::Kind::place || one.kind == Source::Kind::team ||
                    one.kind == Source::Kind::winner || one.kind == Source::Kind::loser;
                if (!simple) return "compares something that is neither team, place nor match";
                if (auto why = wrong(one, Bounds<Source>{})) return why;
            }
            return {};
        case Source::Kind::bye:
            break;
    }
    return {};
}

/// Whatever says all by its type.
template <class Value>
[[nodiscard]] Wrong wrong(const Value&, const Bounds<Value>&) {
    return {};
}

template <class Item>
[[nodiscard]] Wrong wrong(const std::vector<Item>& items, const Bounds<std::vector<Item>>& bounds) {
    if (items.size() < bounds.fewest_items || items.size() > bounds.most_items)
        return fmt::format("{} items, {} to {} are allowed", items.size(), bounds.fewest_items,
                           bounds.most_items);
    for (const Item& item : items)
        if (auto why = wrong(item, bounds.item)) return why;
    return {};
}

}  // namespace

bool is_word(std::string_view text) noexcept {
    for (const char c : text) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        const bool digit = c >= '0' && c <= '9';
        if (!letter && !digit && std::string_view{"-._+/"}.find(c) == std::string_view::npos)
            return false;
    }
    return !text.empty();
}

bool is_colour(std::string_view text) noexcept {
    constexpr std::size_t digits = 6;
    return text.size() == digits &&
           text.find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
}

std::optional<OutOfBounds> out_of_bounds(const Fact& fact) {
    return std::visit(
        []<class Kind>(const Kind& value) {
            std::optional<OutOfBounds> found;
            for_each_field<Kind>([&](const auto& field) {
                if (found) return;
                if (auto why = wrong(value.*field.member, field.bounds))
                    found = OutOfBounds{field.name, std::move(*why)};
            });
            return found;
        },
        fact);
}

}  // namespace courthand::event
