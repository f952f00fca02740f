// What came from outside and the person at the table has not seen yet, as sentences. Kept in the
// journal, so that a restart loses none.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "client/journal/journal.h"

namespace courthand::client {

inline constexpr std::string_view news_prefix = "news/";
/// Sentences that may wait for the person: as many as rulings of one match may wait. The oldest
/// are of more use than one more.
inline constexpr std::size_t most_unseen_news = 200;

/// The setting that keeps one more sentence behind those that wait; nothing when there is no room.
[[nodiscard]] std::optional<std::pair<std::string, std::string>> fresh_news(
    const Journal& journal, const std::string& words);
/// Oldest first.
[[nodiscard]] std::vector<std::string> unseen_news(const Journal& journal);
/// The person has seen these words.
[[nodiscard]] std::optional<JournalError> forget_news(Journal& journal, const std::string& words);

}  // namespace courthand::client
