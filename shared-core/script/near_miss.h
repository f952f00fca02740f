// The known word a mistyped one was probably meant to be.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace courthand::script {

/// The nearest of `known`, or an empty view when none is near enough to be a slip of the hand.
[[nodiscard]] std::string_view near_miss(std::string_view typed,
                                         std::span<const std::string_view> known);

/// Those of `known` that have a part between hyphens in common with the typed word, the nearest
/// first; at most `most_related`.
[[nodiscard]] std::vector<std::string_view> related(std::string_view typed,
                                                    std::span<const std::string_view> known);
/// More than these are no help in a message.
inline constexpr std::size_t most_related = 4;

/// "did you mean 'x'?"; the related words and `otherwise` when none is a slip of the hand; or
/// `otherwise` alone when nothing is near.
[[nodiscard]] std::string suggestion(std::string_view typed,
                                     std::span<const std::string_view> known,
                                     std::string_view otherwise);

}  // namespace courthand::script
