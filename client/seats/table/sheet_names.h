// The sheets that the program itself asks for, by the names under which their files make themselves
// known (TableSheet.qml). Any other sheet is known by its file alone.
#pragma once

#include <array>

namespace courthand::client::sheets {

inline constexpr const char* box = "box";
inline constexpr const char* captain = "captain";
inline constexpr const char* substitution = "substitution";

inline constexpr std::array wanted{box, captain, substitution};

}  // namespace courthand::client::sheets
