// Small secret files: written whole or not at all, readable by the owner only.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::server::auth {

/// Larger files are not keys or certificates of ours.
inline constexpr std::size_t largest_key_file = 64 * 1024;

/// The whole file; nothing when it cannot be read or is too large.
[[nodiscard]] std::optional<std::string> read_file(const std::filesystem::path& path);

/// Replaces `path` in one step, with mode 600, and makes it durable. False with errno set.
[[nodiscard]] bool write_secret_file(const std::filesystem::path& path, std::string_view text);

/// Held while the authority is opened, so that two servers starting together make only one.
class FolderLock {
  public:
    explicit FolderLock(const std::filesystem::path& folder);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    [[nodiscard]] bool held() const noexcept { return file_ >= 0; }

  private:
    int file_ = -1;
};

}  // namespace courthand::server::auth
