// The style and the script of the pages, as they lie in `assets`.
#pragma once

#include <string>
#include <vector>

namespace courthand::server::publish {

struct Asset {
    const char* path;
    const char* type;
    const char* text;
};
[[nodiscard]] const std::vector<Asset>& assets();

}  // namespace courthand::server::publish
