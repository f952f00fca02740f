// The files of a journal in a device's folder, and how a damaged one is exchanged for a new one.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace courthand::client {

[[nodiscard]] std::filesystem::path journal_file(const std::filesystem::path& folder);
[[nodiscard]] std::filesystem::path high_water_file(const std::filesystem::path& folder);
/// Where the successor of a damaged journal is written before it takes its place.
[[nodiscard]] std::filesystem::path successor_file(const std::filesystem::path& folder);
/// A name that is not taken, for a damaged journal: "journal.damaged-1.db".
[[nodiscard]] std::filesystem::path set_aside_file(const std::filesystem::path& folder);

/// A journal of a whole season stays far below; a larger file is not ours.
inline constexpr std::uintmax_t most_journal_bytes = std::uintmax_t{1} << 30;
/// All bytes of a file; nothing when it is not there or too large.
[[nodiscard]] std::string bytes_of(const std::filesystem::path& file);

/// The file and its write-ahead log. Throw std::filesystem::filesystem_error.
void copy_journal(const std::filesystem::path& from, const std::filesystem::path& to);
void move_journal(const std::filesystem::path& from, const std::filesystem::path& to);
void remove_journal(const std::filesystem::path& file);

/// The write-ahead log as it was before SQLite saw it: opening a damaged file may drop it.
class SavedLog {
  public:
    explicit SavedLog(const std::filesystem::path& journal);
    /// Writes it again if it was changed or removed.
    void put_back() const;

  private:
    std::filesystem::path file_;
    std::string bytes_;
};

/// Sets `file` aside and puts the finished successor in its place. A crash at any point leaves
/// either the damaged journal or its successor to be found by `finish_exchange`.
void exchange(const std::filesystem::path& folder, const std::filesystem::path& set_aside);
/// Completes an exchange that a crash cut short.
void finish_exchange(const std::filesystem::path& folder);

}  // namespace courthand::client
