// The table of all parameters of a profile: what each may hold, where it goes in `Rules`, who acts
// on it and which verdicts rest on it. Internal to shared-core/rules.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "courthand/rules/parameter.h"

namespace courthand::rules {

/// Verdicts a parameter decides about. No parameter decides about more than `most`.
template <class Word, std::size_t most>
struct ListOf {
    std::array<Word, most> items{};
    std::size_t count = 0;

    [[nodiscard]] constexpr std::span<const Word> all() const noexcept {
        return {items.data(), count};
    }
    [[nodiscard]] constexpr bool has(Word word) const noexcept {
        return std::find(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(count), word) !=
               items.begin() + static_cast<std::ptrdiff_t>(count);
    }
};
using ReasonList = ListOf<Reason, 20>;
using ActionList = ListOf<Action, 3>;

/// One key of a profile file: a number within bounds, true or false, or one of a few words.
struct Parameter {
    enum class Kind { number, truth, word };

    std::string_view key;
    Kind kind = Kind::number;
    int least = 0;
    int most = 0;
    std::array<std::string_view, 4> words{};
    void (*set)(Rules&, int) = nullptr;
    ActedBy acted_by = ActedBy::judge;
    ReasonList reasons;  ///< verdicts that come, stay away or are answered otherwise by it
    ActionList actions;  ///< every verdict with this remedy rests on it too
};

[[nodiscard]] std::span<const Parameter> parameter_table() noexcept;

/// The row of a key, or null.
[[nodiscard]] const Parameter* parameter(std::string_view key) noexcept;

/// "a whole number from 1 to 9", "true or false", "one of "set", "match"".
[[nodiscard]] std::string allowed(const Parameter& p);

}  // namespace courthand::rules
