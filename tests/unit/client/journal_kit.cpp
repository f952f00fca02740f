#include "tests/unit/client/journal_kit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/journal/files.h"

namespace courthand::client {

ChainMaker::ChainMaker(std::string match_id, std::size_t bytes)
    : match_id_{std::move(match_id)}, bytes_{bytes}, hash_{first_hash(match_id_)} {}

JournalEntry ChainMaker::next() {
    JournalEntry entry;
    entry.match_id = match_id_;
    entry.epoch = 1;
    entry.seq = ++seq_;
    entry.entry_id = fmt::format("01900000-0000-7000-9000-{:012}", seq_);
    entry.prev_hash = hash_;
    entry.bytes = fmt::format("{} {} {}", match_id_, seq_, hash_);
    entry.bytes.resize(bytes_, static_cast<char>('a' + seq_ % 26));
    entry.hash = chain_hash(entry.bytes);
    hash_ = entry.hash;
    return entry;
}

void spoil_the_disk(Journal& journal, const std::filesystem::path& folder) {
    // More than SQLite keeps in memory.
    constexpr std::size_t entries = 900;
    ChainMaker other{match_two, most_entry_bytes};
    for (std::size_t i = 0; i < entries; ++i) ASSERT_FALSE(journal.append(other.next()));
    ASSERT_EQ(journal.entries(match_two).size(), entries);
    const std::string garbage(std::size_t{1} << 16U, '\xa5');
    for (const std::string& name :
         {journal_file(folder).string(), journal_file(folder).string() + "-wal"}) {
        if (!std::filesystem::exists(name)) continue;
        const auto size = std::filesystem::file_size(name);
        std::fstream out{name, std::ios::binary | std::ios::in | std::ios::out};
        for (std::uintmax_t at = 0; at < size; at += garbage.size())
            out.write(garbage.data(), static_cast<std::streamsize>(
                                          std::min<std::uintmax_t>(garbage.size(), size - at)));
    }
}

std::unique_ptr<Journal> open_journal(const std::filesystem::path& folder,
                                      std::int64_t most_pages) {
    auto opened = Journal::open(folder, Journal::Options{most_pages});
    if (const auto* error = std::get_if<JournalError>(&opened)) {
        ADD_FAILURE() << error->message;
        return nullptr;
    }
    return std::move(std::get<0>(opened));
}

bool is_on_the_device(const std::filesystem::path& folder, const std::string& bytes) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator{folder}) {
        if (!entry.is_regular_file()) continue;
        std::ifstream in{entry.path(), std::ios::binary};
        const std::string whole{std::istreambuf_iterator<char>{in}, {}};
        if (whole.find(bytes) != std::string::npos) return true;
    }
    return false;
}

}  // namespace courthand::client
