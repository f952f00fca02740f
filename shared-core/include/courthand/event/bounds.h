// What may stand in a field of a fact: the bounds of each type of value.
#pragma once

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "courthand/event/choices.h"
#include "courthand/event/fact.h"
#include "courthand/event/limits.h"

namespace courthand::event {

template <class Value>
concept Count = std::unsigned_integral<Value> && !std::is_same_v<Value, bool>;

/// Most values say all by their type.
template <class Value>
struct Bounds {};

/// A text: a name in any letters; a word of letters, digits and - . _ + / alone; or a colour, which
/// has six hexadecimal digits.
enum class Letters : std::uint8_t { any, word, colour };
template <>
struct Bounds<std::string> {
    std::size_t most_bytes = most_name_bytes;
    Letters letters = Letters::any;
    bool may_be_empty = false;
};

template <Count Value>
struct Bounds<Value> {
    Value least = 0;
    Value most = static_cast<Value>(-1);
};

template <Choice Value>
struct Bounds<Value> {};

/// A list of texts or numbers; each item within its own bounds.
template <class Item>
struct Bounds<std::vector<Item>> {
    std::size_t most_items = most_listed;
    Bounds<Item> item{};
    std::size_t fewest_items = 0;
};

template <>
struct Bounds<Date> {
    bool may_be_none = false;
};
template <>
struct Bounds<LocalTime> {
    bool may_be_none = false;
};
template <>
struct Bounds<Source> {
    bool may_be_none = false;
};

inline constexpr Bounds<std::string> a_name{};
inline constexpr Bounds<std::string> name_or_none{most_name_bytes, Letters::any, true};
inline constexpr Bounds<std::string> a_word{most_word_bytes, Letters::word, false};
inline constexpr Bounds<std::string> word_or_none{most_word_bytes, Letters::word, true};
inline constexpr Bounds<std::string> colour_or_none{6, Letters::colour, true};

/// What is not within the bounds of its field, for readers and generators: "name: is empty".
struct OutOfBounds {
    std::string_view field;
    std::string message;
};
[[nodiscard]] std::optional<OutOfBounds> out_of_bounds(const Fact& fact);

/// Whether a text is a word: letters, digits and - . _ + / only, at least one.
[[nodiscard]] bool is_word(std::string_view text) noexcept;

/// Whether a text is a colour: six hexadecimal digits, "1f3a5f".
[[nodiscard]] bool is_colour(std::string_view text) noexcept;

}  // namespace courthand::event
