#include "case_folder.h"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace courthand {

namespace fs = std::filesystem;

std::vector<fs::path> case_files() {
    std::vector<fs::path> files;
    for (const auto& file : fs::recursive_directory_iterator{COURTHAND_CASES})
        if (file.path().extension() == ".match") files.push_back(file.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::string case_name(const fs::path& path) {
    return fs::relative(path, COURTHAND_CASES).generic_string();
}

std::string contents(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream{path, std::ios::binary}.rdbuf();
    return text.str();
}

}  // namespace courthand
