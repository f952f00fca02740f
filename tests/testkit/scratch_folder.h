// A folder of its own for one test.
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <system_error>

namespace courthand::testkit {

/// Below the folder for temporary files, readable to its owner alone; removed at the end.
class ScratchFolder {
  public:
    /// Throws std::runtime_error when there is no room for it.
    ScratchFolder() {
        std::string name =
            (std::filesystem::temp_directory_path() / "courthand-test-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr)
            throw std::runtime_error{"no folder for the test: " + name};
        path_ = name;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }

  private:
    std::filesystem::path path_;
};

}  // namespace courthand::testkit
