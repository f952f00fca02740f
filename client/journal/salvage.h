// What can still be read of a damaged journal.
//
// First through SQLite, as far as it goes; then page by page over the raw file and its write-ahead
// log, which needs neither the file header nor the trees. Every row carries a seal, so nothing that
// is not exactly as written comes out. Pages and log also hold rows that were replaced since, so
// what SQLite read wins over them. Reads only.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "client/journal/rows.h"

namespace courthand::client {

/// Size of a page of the journal's file; set when the file is made.
inline constexpr std::size_t journal_page_bytes = 8192;

struct Salvage {
    std::vector<JournalEntry> entries;                        ///< whole rows, unordered
    std::vector<std::pair<JournalEntry, std::string>> aside;  ///< with why they are set aside
    std::map<std::string, KeptSignature> signatures;          ///< by the hash of their entry
    std::vector<StoredMatch> matches;  ///< newest version of each, oldest match first
    std::map<std::string, std::string> settings;

    /// Empty when none was kept.
    [[nodiscard]] std::string_view signature_of(const JournalEntry& entry) const;
};

[[nodiscard]] Salvage salvage(const std::filesystem::path& file);

/// The entries of one match that hang together from entry 1 on. Where two candidates fit, the one
/// with more behind it is taken, then the one listed first.
[[nodiscard]] std::vector<JournalEntry> whole_chain(const std::vector<JournalEntry>& candidates,
                                                    std::string_view match_id);

}  // namespace courthand::client
