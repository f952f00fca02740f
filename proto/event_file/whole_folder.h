// Files in a folder that is there as a whole or not at all: they are written beside it, and it gets
// its name when all of them are on the disk.
#pragma once

#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::event_file {

/// What is wrong, and what can be done about it.
struct FolderFault {
    std::string message;
    std::string cure;
};

class WholeFolder {
  public:
    using Failure = std::optional<FolderFault>;

    /// `folder` must not be there yet, or be empty.
    explicit WholeFolder(std::filesystem::path folder);
    /// What was not finished is removed.
    ~WholeFolder();
    WholeFolder(const WholeFolder&) = delete;
    WholeFolder& operator=(const WholeFolder&) = delete;

    /// Before the first file.
    [[nodiscard]] Failure open();
    /// Begins the next file; its name must be `plain_name`.
    [[nodiscard]] Failure begin(const std::string& name);
    /// More of the file that was begun.
    [[nodiscard]] Failure write(std::string_view bytes);
    /// Gives the folder its name.
    [[nodiscard]] Failure finish();

    /// Whether it is a file's name and nothing else: up to 64 letters, digits and - _ . and no dot
    /// at its beginning.
    [[nodiscard]] static bool plain_name(std::string_view name) noexcept;

  private:
    [[nodiscard]] Failure close_file();
    [[nodiscard]] FolderFault failed(const std::string& what) const;

    std::filesystem::path folder_;
    std::filesystem::path unfinished_;  ///< beside it, so that giving it its name moves nothing
    std::string name_;                  ///< of the file that is written
    std::ofstream file_;
};

}  // namespace courthand::event_file
