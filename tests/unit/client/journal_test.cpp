// The journal keeps exactly what it was given, over restarts and a full disk.
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "client/journal/files.h"
#include "client/journal/sqlite.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

using Kind = JournalError::Kind;

TEST(Journal, GivesBackTheExactBytesAfterARestart) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    std::vector<JournalEntry> written;
    {
        const auto journal = open_journal(folder.path());
        for (int i = 0; i < 50; ++i) {
            written.push_back(chain.next());
            ASSERT_FALSE(journal->append(written.back()));
        }
    }
    const auto journal = open_journal(folder.path());
    EXPECT_FALSE(journal->recovery());
    const auto read = journal->entries(match_one);
    ASSERT_EQ(read.size(), written.size());
    for (std::size_t i = 0; i < read.size(); ++i) {
        EXPECT_EQ(read[i].bytes, written[i].bytes);
        EXPECT_EQ(read[i].hash, written[i].hash);
        EXPECT_EQ(read[i].entry_id, written[i].entry_id);
        EXPECT_EQ(read[i].seq, i + 1);
    }
}

TEST(Journal, RefusesAnEntryThatDoesNotFollow) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    ChainMaker chain{match_one};
    ASSERT_FALSE(journal->append(chain.next()));
    const JournalEntry skipped = chain.next();
    const JournalEntry third = chain.next();
    EXPECT_EQ(journal->append(third)->kind, Kind::out_of_order);
    JournalEntry altered = skipped;
    altered.bytes[5] ^= 1;
    EXPECT_EQ(journal->append(altered)->kind, Kind::out_of_order);
    EXPECT_FALSE(journal->append(skipped));
    EXPECT_FALSE(journal->append(third));
    EXPECT_EQ(journal->entries(match_one).size(), 3U);
}

TEST(Journal, RefusesAnEntryOverItsLimit) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    ChainMaker chain{match_one, most_entry_bytes + 1};
    EXPECT_EQ(journal->append(chain.next())->kind, Kind::too_large);
}

TEST(Journal, SettledEntriesNoLongerWait) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    ChainMaker one{match_one};
    ChainMaker two{match_two};
    for (int i = 0; i < 4; ++i) ASSERT_FALSE(journal->append(one.next()));
    ASSERT_FALSE(journal->append(two.next()));
    EXPECT_EQ(journal->matches_waiting(), (std::vector<std::string>{match_one, match_two}));
    ASSERT_FALSE(journal->settle(match_one, {{1, EntryStanding::acknowledged},
                                             {2, EntryStanding::on_branch},
                                             {3, EntryStanding::acknowledged}}));
    EXPECT_EQ(journal->waiting_count(), 2U);
    ASSERT_EQ(journal->waiting(match_one, 10).size(), 1U);
    EXPECT_EQ(journal->waiting(match_one, 10).front().seq, 4U);
    EXPECT_EQ(journal->entries(match_one)[1].standing, EntryStanding::on_branch);
    // A server that lost its last second asks for the rest once more, but not for a branch.
    ASSERT_FALSE(journal->wait_again_after(match_one, 1));
    EXPECT_EQ(journal->waiting_count(match_one), 2U);
}

TEST(Journal, MatchesAndCursorAreStoredTogether) {
    const ScratchFolder folder;
    {
        const auto journal = open_journal(folder.path());
        ASSERT_FALSE(
            journal->store({{match_one, "sheet 1"}, {match_two, "sheet 2"}}, {{"cursor", "41"}}));
        ASSERT_FALSE(journal->store({{match_one, "sheet 1b"}}, {{"cursor", "42"}}));
        // Nothing of a call that fails is kept.
        EXPECT_EQ(
            journal
                ->store({{match_two, std::string(most_sheet_bytes + 1, 'x')}}, {{"cursor", "43"}})
                ->kind,
            Kind::too_large);
    }
    const auto journal = open_journal(folder.path());
    ASSERT_EQ(journal->matches().size(), 2U);
    EXPECT_EQ(journal->matches()[0].sheet, "sheet 1b");
    EXPECT_EQ(journal->match(match_two)->sheet, "sheet 2");
    EXPECT_FALSE(journal->match("unknown"));
    EXPECT_EQ(journal->setting("cursor"), "42");
    EXPECT_EQ(journal->setting("unknown"), "");
}

TEST(Journal, IsHeldByOneProgramAtATime) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto second = Journal::open(folder.path());
    ASSERT_TRUE(std::holds_alternative<JournalError>(second));
    EXPECT_EQ(std::get<JournalError>(second).kind, Kind::in_use);
    ChainMaker chain{match_one};
    EXPECT_FALSE(journal->append(chain.next()));
}

TEST(Journal, ANewerSchemaIsLeftAlone) {
    const ScratchFolder folder;
    {
        const auto journal = open_journal(folder.path());
        ChainMaker chain{match_one};
        ASSERT_FALSE(journal->append(chain.next()));
        ASSERT_FALSE(journal->store({}, {{"schema", "7"}}));
    }
    {
        sqlite::Database db{Journal::file(folder.path()).string()};
        db.exec("PRAGMA user_version=7");
    }
    const auto opened = Journal::open(folder.path());
    ASSERT_TRUE(std::holds_alternative<JournalError>(opened));
    EXPECT_EQ(std::get<JournalError>(opened).kind, Kind::newer_schema);
    EXPECT_NE(std::get<JournalError>(opened).message.find("courthand export"), std::string::npos);
    sqlite::Database db{Journal::file(folder.path()).string()};
    EXPECT_EQ(db.number("SELECT COUNT(*) FROM entry"), 1);
    EXPECT_FALSE(std::filesystem::exists(folder.path() / "journal.damaged-1.db"));
}

// A flipped bit in the file header must not stop a table with "newer schema".
TEST(Journal, AFlippedSchemaNumberIsDamageNotANewerSchema) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    {
        const auto journal = open_journal(folder.path());
        ASSERT_FALSE(journal->append(chain.next()));
    }
    {
        sqlite::Database db{Journal::file(folder.path()).string()};
        db.exec("PRAGMA user_version=129");
    }
    const auto journal = open_journal(folder.path());
    ASSERT_TRUE(journal->recovery());
    EXPECT_EQ(journal->entries(match_one).size(), 1U);
}

TEST(Journal, AFullDiskIsSaidAndGoesOnOnceThereIsRoom) {
    const ScratchFolder folder;
    constexpr std::int64_t few_pages = 14;
    ChainMaker chain{match_one, 2000};
    std::size_t saved = 0;
    JournalEntry pending = chain.next();
    {
        const auto journal = open_journal(folder.path(), few_pages);
        std::optional<JournalError> error;
        while (!(error = journal->append(pending)) && saved < 1000) {
            ++saved;
            pending = chain.next();
        }
        ASSERT_TRUE(error);
        EXPECT_EQ(error->kind, Kind::full_disk);
        EXPECT_NE(error->message.find("full"), std::string::npos);
        EXPECT_GT(saved, 10U);
        // It says so again, and what was saved is still read.
        EXPECT_EQ(journal->append(pending)->kind, Kind::full_disk);
        EXPECT_EQ(journal->entries(match_one).size(), saved);
    }
    const auto journal = open_journal(folder.path());
    EXPECT_FALSE(journal->recovery());
    EXPECT_FALSE(journal->append(pending));
    EXPECT_EQ(journal->entries(match_one).size(), saved + 1);
}

TEST(Journal, OneThreadWritesWhileAnotherSettles) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    constexpr std::uint32_t entries = 300;
    std::thread writer{[&] {
        ChainMaker chain{match_one};
        for (std::uint32_t i = 0; i < entries; ++i) EXPECT_FALSE(journal->append(chain.next()));
    }};
    std::size_t settled = 0;
    while (settled < entries) {
        std::vector<Journal::Settled> batch;
        for (const JournalEntry& entry : journal->waiting(match_one, 50))
            batch.push_back({entry.seq, EntryStanding::acknowledged});
        settled += batch.size();
        EXPECT_FALSE(journal->settle(match_one, batch));
    }
    writer.join();
    EXPECT_EQ(journal->waiting_count(), 0U);
    EXPECT_EQ(journal->entries(match_one).size(), entries);
}

}  // namespace
}  // namespace courthand::client
