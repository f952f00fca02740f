// A journal that comes back damaged: the valid prefix is kept, the file is set aside, the loss is
// named. Each case damages a good journal in one place and opens it again.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <random>

#include <fmt/format.h>

#include "client/journal/files.h"
#include "client/journal/sqlite.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

namespace fs = std::filesystem;

constexpr std::uint32_t entries_one = 400;
constexpr std::uint32_t entries_two = 150;

/// A journal with two matches: closed and checked in, or left as a killed program leaves it.
class DamagedJournal : public testing::Test {
  protected:
    void SetUp() override {
        ChainMaker one{match_one};
        ChainMaker two{match_two};
        const auto journal = open_journal(good_.path());
        ASSERT_FALSE(journal->store({{match_one, "sheet one"}, {match_two, "sheet two"}},
                                    {{"device", "table 4"}}));
        for (std::uint32_t i = 0; i < entries_one; ++i) {
            one_.push_back(one.next());
            ASSERT_FALSE(journal->append(one_.back()));
            if (i >= entries_one - entries_two) {
                two_.push_back(two.next());
                ASSERT_FALSE(journal->append(two_.back()));
            }
        }
        // What a kill leaves: the log is still there.
        copy_folder(good_.path(), killed_.path());
    }

    static void copy_folder(const fs::path& from, const fs::path& to) {
        fs::remove_all(to);
        fs::create_directories(to);
        for (const auto& file : fs::directory_iterator{from})
            fs::copy_file(file.path(), to / file.path().filename());
    }

    /// Opens what was damaged and checks all promises. Returns how many entries are left.
    std::size_t check(const fs::path& folder, const std::string& what) {
        SCOPED_TRACE(what);
        const auto journal = open_journal(folder);
        if (!journal) return 0;
        const std::size_t kept_one = check_prefix(*journal, match_one, one_);
        const std::size_t kept_two = check_prefix(*journal, match_two, two_);
        const bool shorter = kept_one < one_.size() || kept_two < two_.size();
        EXPECT_TRUE(!shorter || journal->recovery()) << "a loss nobody was told of";
        if (journal->recovery()) {
            EXPECT_TRUE(fs::exists(journal->recovery()->set_aside));
            EXPECT_TRUE(kept_one == one_.size() || names_loss(*journal, match_one, kept_one));
            EXPECT_TRUE(kept_two == two_.size() || names_loss(*journal, match_two, kept_two));
        }
        return kept_one + kept_two;
    }

    static std::size_t check_prefix(const Journal& journal, const std::string& match_id,
                                    const std::vector<JournalEntry>& written) {
        const auto kept = journal.entries(match_id);
        EXPECT_LE(kept.size(), written.size());
        for (std::size_t i = 0; i < std::min(kept.size(), written.size()); ++i)
            EXPECT_EQ(kept[i].bytes, written[i].bytes);
        return kept.size();
    }

    static bool names_loss(const Journal& journal, const std::string& match_id, std::size_t kept) {
        const auto& losses = journal.recovery()->losses;
        return std::any_of(losses.begin(), losses.end(), [&](const Loss& loss) {
            return loss.match_id == match_id && loss.kept == kept && loss.last_seen > kept &&
                   loss.text().find(match_id) != std::string::npos;
        });
    }

    ScratchFolder good_;
    ScratchFolder killed_;
    std::vector<JournalEntry> one_;
    std::vector<JournalEntry> two_;
};

TEST_F(DamagedJournal, TruncatedAnywhere) {
    const ScratchFolder work;
    std::size_t kept_before = 0;
    const fs::path folder = work.path() / "device";
    const std::uintmax_t size = fs::file_size(journal_file(good_.path()));
    for (int step = 0; step <= 16; ++step) {
        const std::uintmax_t length =
            size * static_cast<std::uintmax_t>(step) / 16 - (step == 16 ? 1 : 0);
        copy_folder(good_.path(), folder);
        fs::resize_file(journal_file(folder), length);
        const std::size_t kept = check(folder, fmt::format("truncated to {} of {}", length, size));
        EXPECT_GE(kept, kept_before) << "a longer rest keeps no less";
        kept_before = kept;
    }
    EXPECT_GT(kept_before, (entries_one + entries_two) / 2) << "almost the whole file was there";
}

TEST_F(DamagedJournal, TruncatedLogOfAKilledProgram) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    const std::string log = journal_file(killed_.path()).string() + "-wal";
    ASSERT_TRUE(fs::exists(log));
    const std::uintmax_t size = fs::file_size(log);
    for (int step = 0; step < 8; ++step) {
        copy_folder(killed_.path(), folder);
        const std::uintmax_t length = size * static_cast<std::uintmax_t>(step) / 8;
        fs::resize_file(journal_file(folder).string() + "-wal", length);
        check(folder, fmt::format("log truncated to {} of {}", length, size));
    }
}

void flip(const fs::path& file, std::uintmax_t at, unsigned mask) {
    std::fstream stream{file, std::ios::in | std::ios::out | std::ios::binary};
    stream.seekg(static_cast<std::streamoff>(at));
    const auto byte = static_cast<unsigned>(stream.get());
    stream.seekp(static_cast<std::streamoff>(at));
    stream.put(static_cast<char>(byte ^ mask));
}

// Its entries were kept and never sent, and nobody was told.
TEST_F(DamagedJournal, ASheetThatIsLostIsNamed) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    copy_folder(good_.path(), folder);
    std::ifstream stream{journal_file(folder), std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{stream}, {}};
    std::size_t found = 0;
    for (auto at = bytes.find("sheet two"); at != std::string::npos;
         at = bytes.find("sheet two", at + 1), ++found)
        flip(journal_file(folder), at, 1);
    ASSERT_GT(found, 0U);
    const auto journal = open_journal(folder);
    ASSERT_TRUE(journal->recovery());
    EXPECT_FALSE(journal->match(match_two));
    EXPECT_EQ(journal->entries(match_two).size(), two_.size());
    const std::string words = journal->recovery()->text();
    EXPECT_NE(words.find("sheet of match " + match_two), std::string::npos) << words;
    EXPECT_EQ(words.find("sheet of match " + match_one), std::string::npos) << words;
}

TEST_F(DamagedJournal, FlippedAnywhere) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    const std::uintmax_t size = fs::file_size(journal_file(good_.path()));
    std::mt19937 random{20261125};
    for (int i = 0; i < 90; ++i) {
        copy_folder(good_.path(), folder);
        // The first pages hold header, schema and roots; every third flip goes there.
        const std::uintmax_t at =
            random() % (i % 3 == 0 ? std::min<std::uintmax_t>(size, 40960) : size);
        flip(journal_file(folder), at, 1U << (random() % 8));
        const std::size_t kept = check(folder, fmt::format("flip at {}", at));
        if (i % 3 == 0) continue;
        // One bad page costs at most what follows it in the same match.
        EXPECT_GE(kept, std::size_t{entries_two} / 2) << "flip at " << at;
    }
}

TEST_F(DamagedJournal, FlippedLogOfAKilledProgram) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    const std::string log = "-wal";
    const std::uintmax_t size = fs::file_size(journal_file(killed_.path()).string() + log);
    std::mt19937 random{7};
    for (int i = 0; i < 24; ++i) {
        copy_folder(killed_.path(), folder);
        const std::uintmax_t at = random() % size;
        flip(journal_file(folder).string() + log, at, 0xff);
        check(folder, fmt::format("log flip at {}", at));
    }
}

TEST_F(DamagedJournal, ADestroyedHeaderCostsNothing) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    copy_folder(good_.path(), folder);
    {
        std::fstream file{journal_file(folder), std::ios::in | std::ios::out | std::ios::binary};
        file << std::string(4096, '\x5a');
    }
    const auto journal = open_journal(folder);
    ASSERT_TRUE(journal->recovery());
    EXPECT_EQ(journal->entries(match_one).size(), one_.size());
    EXPECT_EQ(journal->entries(match_two).size(), two_.size());
    EXPECT_EQ(journal->setting("device"), "table 4");
    EXPECT_EQ(journal->matches().size(), 2U);
    EXPECT_TRUE(journal->recovery()->losses.empty());
}

TEST_F(DamagedJournal, GoesOnAfterTheLoss) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    copy_folder(good_.path(), folder);
    fs::resize_file(journal_file(folder), fs::file_size(journal_file(folder)) / 2);
    std::size_t kept = 0;
    {
        const auto journal = open_journal(folder);
        kept = journal->entries(match_one).size();
        ASSERT_GT(kept, 0U);
        ASSERT_LT(kept, one_.size());
        ASSERT_FALSE(journal->append(one_[kept]));
    }
    const auto journal = open_journal(folder);
    EXPECT_FALSE(journal->recovery()) << "a loss is told once";
    EXPECT_EQ(journal->entries(match_one).size(), kept + 1);
}

TEST_F(DamagedJournal, AnExchangeCutShortIsCompleted) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    copy_folder(good_.path(), folder);
    // The damaged file was set aside, the successor not yet put in place.
    fs::rename(journal_file(folder), successor_file(folder));
    const std::string log = journal_file(folder).string() + "-wal";
    if (fs::exists(log)) fs::rename(log, successor_file(folder).string() + "-wal");
    const auto journal = open_journal(folder);
    EXPECT_FALSE(journal->recovery());
}

TEST_F(DamagedJournal, ARemovedJournalIsMissed) {
    const ScratchFolder work;
    const fs::path folder = work.path() / "device";
    copy_folder(good_.path(), folder);
    remove_journal(journal_file(folder));
    const auto journal = open_journal(folder);
    ASSERT_TRUE(journal->recovery());
    EXPECT_TRUE(names_loss(*journal, match_one, 0));
}

/// What a killed program leaves after its log was begun anew: new frames at the front, old ones
/// behind them. One entry is then damaged so that the journal must be saved.
class StaleLog : public testing::Test {
  protected:
    static constexpr int many = 1500;  ///< commits; SQLite begins its log anew after 1,000 frames

    void SetUp() override {
        ChainMaker chain{match_one};
        const auto journal = open_journal(good_.path());
        for (int i = 0; i < 40; ++i)
            ASSERT_FALSE(journal->append(chain.next(), "signed by another device"));
        for (int i = 1; i <= many; ++i)
            ASSERT_FALSE(journal->store({{match_one, fmt::format("sheet {}", i)}},
                                        {{"cursor", fmt::format("{}", i)}}));
        ASSERT_FALSE(journal->settle(match_one, {{1, EntryStanding::acknowledged}}));
        fs::create_directories(killed_.path());
        for (const auto& file : fs::directory_iterator{good_.path()})
            fs::copy_file(file.path(), killed_.path() / file.path().filename());
    }
    ScratchFolder good_;
    ScratchFolder killed_;
};

TEST_F(StaleLog, WhatSqliteReadsWinsOverOldFramesOfTheLog) {
    {
        sqlite::Database db{journal_file(killed_.path()).string()};
        db.check_in_on_close(false);
        db.exec("UPDATE entry SET seal = seal + 1 WHERE seq = 40");
    }
    const auto journal = open_journal(killed_.path());
    ASSERT_TRUE(journal->recovery());
    EXPECT_EQ(journal->setting("cursor"), fmt::format("{}", many));
    ASSERT_EQ(journal->matches().size(), 1U);
    EXPECT_EQ(journal->matches()[0].sheet, fmt::format("sheet {}", many));
    EXPECT_EQ(journal->count(match_one, EntryStanding::acknowledged), 1U);
    EXPECT_EQ(journal->signature(match_one, 7), "signed by another device");
}

TEST_F(StaleLog, SignaturesComeFromRawPagesToo) {
    {
        std::fstream file{journal_file(killed_.path()),
                          std::ios::in | std::ios::out | std::ios::binary};
        file << std::string(4096, '\x5a');
    }
    const auto journal = open_journal(killed_.path());
    ASSERT_TRUE(journal->recovery());
    EXPECT_EQ(journal->entries(match_one).size(), 40U);
    EXPECT_EQ(journal->signature(match_one, 7), "signed by another device");
}

}  // namespace
}  // namespace courthand::client
