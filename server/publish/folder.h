// The site as files in a folder, for any other web server to stand in front.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "server/publish/site.h"
#include "server/store/status.h"

namespace courthand::server::publish {

/// Whoever reads a file while it is written reads it as it was before. Not thread-safe.
class Folder {
  public:
    /// Made when it is not there.
    explicit Folder(std::filesystem::path path) : path_{std::move(path)} {}

    /// In the folder: the names of what was written, a line each, for the server that starts next.
    static constexpr const char* list = ".written";

    /// Writes what has changed since the last time, and takes away what this wrote, or a server
    /// before it, and is gone. What could not be written is tried again with the next call.
    [[nodiscard]] Status write(const Files& files);

  private:
    void read_list();
    [[nodiscard]] Status write_list();
    [[nodiscard]] Status put_changed(const Files& files);
    [[nodiscard]] Status take_away_gone(const Files& files);

    std::filesystem::path path_;
    Files written_;                      ///< null: by a server before this one
    std::optional<std::string> listed_;  ///< as the list stands in the folder
};

}  // namespace courthand::server::publish
