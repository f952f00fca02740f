// The site as files in a folder, for any other web server to stand in front.
#pragma once

#include <filesystem>
#include <memory>

#include "server/publish/site.h"
#include "server/store/status.h"

namespace courthand::server::publish {

/// Whoever reads a file while it is written reads it as it was before. Not thread-safe.
class Folder {
  public:
    /// Made when it is not there.
    explicit Folder(std::filesystem::path path) : path_{std::move(path)} {}

    /// Writes what has changed since the last time, and takes away what this wrote and is gone.
    /// What could not be written is tried again with the next call.
    [[nodiscard]] Status write(const Files& files);

  private:
    std::filesystem::path path_;
    Files written_;
};

}  // namespace courthand::server::publish
