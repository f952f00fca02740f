// Profile files compiled into the program. Internal to shared-core/rules.
#pragma once

#include <string_view>
#include <vector>

namespace courthand::rules {

struct EmbeddedProfile {
    std::string_view id;
    std::string_view text;
};

/// In the order of shared-core/CMakeLists.txt.
const std::vector<EmbeddedProfile>& embedded_profiles();

}  // namespace courthand::rules
