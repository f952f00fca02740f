// The match scripts of this folder, found when the tests start, so that a new one needs no build.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace courthand {

/// Every script, in the order of its path.
[[nodiscard]] std::vector<std::filesystem::path> case_files();
/// Path within the folder: "libero/front-row-replaced.match".
[[nodiscard]] std::string case_name(const std::filesystem::path& path);
[[nodiscard]] std::string contents(const std::filesystem::path& path);

}  // namespace courthand
