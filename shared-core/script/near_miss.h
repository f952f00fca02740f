// The known word a mistyped one was probably meant to be.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace courthand::script {

/// The nearest of `known`, or an empty view when none is near enough to be a slip of the hand.
[[nodiscard]] std::string_view near_miss(std::string_view typed,
                                         std::span<const std::string_view> known);

/// "did you mean 'x'?", or `otherwise` when nothing is near.
[[nodiscard]] std::string suggestion(std::string_view typed,
                                     std::span<const std::string_view> known,
                                     std::string_view otherwise);

}  // namespace courthand::script
