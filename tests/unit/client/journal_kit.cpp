#include "tests/unit/client/journal_kit.h"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"

namespace courthand::client {

ScratchFolder::ScratchFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "courthand-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error{"no folder for the test"};
    path_ = name;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

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

std::unique_ptr<Journal> open_journal(const std::filesystem::path& folder,
                                      std::int64_t most_pages) {
    auto opened = Journal::open(folder, Journal::Options{most_pages});
    if (const auto* error = std::get_if<JournalError>(&opened)) {
        ADD_FAILURE() << error->message;
        return nullptr;
    }
    return std::move(std::get<0>(opened));
}

}  // namespace courthand::client
