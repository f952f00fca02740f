// The closed choices inside a fact, each value with its word: `choices<Cause>[0]` is "injury". The
// words are stable. A script writes them as they stand; on the wire a choice is the number of its
// value plus one, since 0 there means that nothing was said, and is called CAUSE_INJURY.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <type_traits>

#include "courthand/match/fact.h"

namespace courthand {

struct NoChoices {};
/// The words of an enum by the number of its value; `NoChoices` for every other type.
template <class T>
inline constexpr NoChoices choices{};

template <std::size_t n>
using Words = std::array<std::string_view, n>;

template <>
inline constexpr Words<5> choices<Cause>{"injury", "illness", "expulsion", "disqualification",
                                         "declared"};
template <>
inline constexpr Words<4> choices<Sanction>{"warning", "penalty", "expulsion", "disqualification"};
template <>
inline constexpr Words<3> choices<LiberoBox::Mark>{"blank", "none", "number"};
template <>
inline constexpr Words<3> choices<Resumed::How>{"same-court", "other-court", "over-four-hours"};
template <>
inline constexpr Words<3> choices<Ruling::Decision>{"accept", "overrule", "accept-moment-unknown"};
template <>
inline constexpr Words<2> choices<Incomplete::Scope>{"set", "match"};
template <>
inline constexpr Words<3> choices<Note::Kind>{"remark", "signature", "officials"};
template <>
inline constexpr Words<8> choices<Signer>{"captain-a",      "captain-b",    "coach-a",
                                          "coach-b",        "scorer",       "assistant-scorer",
                                          "second-referee", "first-referee"};

/// An enum with words above.
template <class T>
concept Choice = !std::is_same_v<std::remove_const_t<decltype(choices<T>)>, NoChoices>;

template <Choice T>
inline constexpr std::size_t choice_count = choices<T>.size();

template <Choice T>
[[nodiscard]] constexpr std::string_view choice_word(T value) noexcept {
    const auto number = static_cast<std::size_t>(value);
    return number < choice_count<T> ? choices<T>[number] : std::string_view{};
}

}  // namespace courthand
