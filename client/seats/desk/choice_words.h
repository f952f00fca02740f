// The word of a choice inside a fact, between QML and C++: "play-off", "double-default".
#pragma once

#include <QString>
#include <optional>

#include "courthand/event/choices.h"

namespace courthand::seats {

template <Choice T>
[[nodiscard]] QString word_of_choice(T value) {
    const std::string_view word = choice_word(value);
    return QString::fromUtf8(word.data(), static_cast<int>(word.size()));
}

template <Choice T>
[[nodiscard]] std::optional<T> choice_of(const QString& word) {
    for (std::size_t i = 0; i < choice_count<T>; ++i)
        if (word_of_choice(static_cast<T>(i)) == word) return static_cast<T>(i);
    return std::nullopt;
}

}  // namespace courthand::seats
