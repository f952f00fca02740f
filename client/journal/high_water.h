// How far each match had been written when the journal was last whole.
//
// A small file beside the journal, one fixed place for each match, written after the commit and not
// flushed: it costs nothing and can only lag behind. Only a mark that is lowered is flushed. When
// the journal comes back shorter than its mark, entries were lost that a person had seen confirmed,
// and that must be said. It is evidence only; no entry is ever made from it. Not thread-safe.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>

namespace courthand::client {

class HighWater {
  public:
    /// Opens or makes the file. Failures are silent: without marks a loss is only less exact.
    explicit HighWater(const std::filesystem::path& file);
    HighWater(const HighWater&) = delete;
    HighWater& operator=(const HighWater&) = delete;
    ~HighWater();

    void mark(const std::string& match_id, std::uint32_t seq) noexcept;
    /// Lowers a mark that is higher, and has it on the disk on return: before the rows go that it
    /// speaks of.
    void lower(const std::string& match_id, std::uint32_t seq) noexcept;
    /// Sets a mark even below the present one: after a recovery.
    void reset(const std::map<std::string, std::uint32_t>& marks) noexcept;
    /// Highest entry ever confirmed, by match.
    [[nodiscard]] std::map<std::string, std::uint32_t> marks() const;

  private:
    void write(std::size_t place, const std::string& match_id, std::uint32_t seq) noexcept;
    int file_ = -1;
    std::map<std::string, std::size_t> places_;
    std::map<std::string, std::uint32_t> marks_;
};

}  // namespace courthand::client
