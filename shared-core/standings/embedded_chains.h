// Chain files compiled into the program. Internal to shared-core/standings.
#pragma once

#include <string_view>
#include <vector>

namespace courthand::standings {

struct EmbeddedChain {
    std::string_view id;
    std::string_view text;
};

/// In the order of shared-core/standings/CMakeLists.txt.
const std::vector<EmbeddedChain>& embedded_chains();

}  // namespace courthand::standings
