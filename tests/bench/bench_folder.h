// A folder on the disk that is measured, removed at the end.
#pragma once

#include <filesystem>

namespace courthand::bench {

class BenchFolder {
  public:
    /// Below $COURTHAND_BENCH_FOLDER, else below the present folder: a temporary folder is often
    /// kept in memory, where a commit costs nothing. Throws std::runtime_error.
    BenchFolder();
    ~BenchFolder();
    BenchFolder(const BenchFolder&) = delete;
    BenchFolder& operator=(const BenchFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const noexcept { return path_; }

  private:
    std::filesystem::path path_;
};

}  // namespace courthand::bench
