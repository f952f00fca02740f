// The journal keeps exactly what it was given, over restarts and a full disk.
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "client/journal/chain_hash.h"
#include "client/journal/files.h"
#include "client/journal/sqlite.h"
#include "tests/unit/client/held_checkpoint.h"
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

TEST(Journal, AWipingThatFailedIsOwedUntilItIsDone) {
    const std::string name = "Robin Quaysworth";
    for (const bool at_the_next_start : {false, true}) {
        const ScratchFolder folder;
        HeldCheckpoint held{folder.path()};
        ASSERT_FALSE(held.journal->store({{match_one, "7 " + name}}, {}));
        held.hold();
        EXPECT_TRUE(held.journal->store_wiping({{match_one, "7"}}, {{"court", "4"}}).has_value());
        EXPECT_TRUE(held.journal->wipe_owed().has_value());
        EXPECT_EQ(held.journal->match(match_one)->sheet, "7") << "it is stored all the same";
        EXPECT_EQ(held.journal->setting("court"), "4");
        held.let_go();
        ASSERT_TRUE(is_on_the_device(folder.path(), name));
        if (!at_the_next_start) {
            EXPECT_FALSE(held.journal->wipe_owed());
            EXPECT_FALSE(is_on_the_device(folder.path(), name));
            continue;
        }
        // The device loses its power: its files as they are now.
        const ScratchFolder later;
        std::filesystem::copy(folder.path(), later.path(),
                              std::filesystem::copy_options::recursive);
        ASSERT_TRUE(is_on_the_device(later.path(), name));
        const auto journal = open_journal(later.path());
        EXPECT_FALSE(journal->recovery());
        EXPECT_EQ(journal->match(match_one)->sheet, "7");
        EXPECT_FALSE(is_on_the_device(later.path(), name));
    }
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

TEST(Journal, SignaturesOfOtherDevicesStayWithTheirEntries) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    {
        const auto journal = open_journal(folder.path());
        ASSERT_FALSE(journal->append(chain.next()));
        ASSERT_FALSE(journal->append(chain.next(), "signature of another device"));
        ASSERT_FALSE(journal->append(chain.next(), std::string(most_signature_bytes + 1, 's')));
    }
    const auto journal = open_journal(folder.path());
    EXPECT_FALSE(journal->recovery());
    EXPECT_EQ(journal->signature(match_one, 1), "");
    EXPECT_EQ(journal->signature(match_one, 2), "signature of another device");
    EXPECT_EQ(journal->signature(match_one, 3), "") << "too long to be one";
}

TEST(Journal, WhatNeverCountedIsSetAsideAndAnotherRecordFollows) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    std::vector<JournalEntry> ours;
    std::vector<JournalEntry> others;
    {
        const auto journal = open_journal(folder.path());
        for (int i = 0; i < 5; ++i) {
            ours.push_back(chain.next());
            ASSERT_FALSE(journal->append(ours.back()));
        }
        ASSERT_FALSE(journal->settle(match_one, {{4, EntryStanding::on_branch}}));
        EXPECT_EQ(journal->set_aside_after(match_one, 3, "why")->kind, Kind::out_of_order)
            << "entry 5 is nowhere else";
        EXPECT_EQ(journal->last_seq(match_one), 5U);
        ASSERT_FALSE(journal->settle(match_one, {{5, EntryStanding::on_branch}}));
        ASSERT_FALSE(journal->set_aside_after(match_one, 3, "why"));
        EXPECT_EQ(journal->last_seq(match_one), 3U);
        JournalEntry other = ours[3];
        other.bytes = "another device's entry 4";
        other.hash = chain_hash(other.bytes);
        ASSERT_FALSE(journal->append(other));
    }
    const auto journal = open_journal(folder.path());
    EXPECT_FALSE(journal->recovery()) << "a shorter record on purpose is no damage";
    ASSERT_EQ(journal->entries(match_one).size(), 4U);
    EXPECT_EQ(journal->entries(match_one).back().bytes, "another device's entry 4");
}

// What the server has refused, and what waits behind it, must not hold a record up for ever.
TEST(Journal, WhatTheServerRefusesMayBeSetAsideAndIsOfferedOn) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    std::vector<JournalEntry> ours;
    {
        const auto journal = open_journal(folder.path());
        for (int i = 0; i < 5; ++i) {
            ours.push_back(chain.next());
            ASSERT_FALSE(journal->append(ours.back(), i == 3 ? "signed" : ""));
        }
        ASSERT_FALSE(journal->settle(match_one, {{4, EntryStanding::refused}}));
        EXPECT_EQ(journal->set_aside_after(match_one, 2, "why")->kind, Kind::out_of_order)
            << "entry 3 waits before it";
        ASSERT_FALSE(journal->set_aside_after(match_one, 3, "why"));
        ASSERT_FALSE(journal->append(ours[3], "another signature")) << "its place is free";
    }
    const auto journal = open_journal(folder.path());
    EXPECT_FALSE(journal->recovery());
    ASSERT_EQ(journal->unsettled(), (std::vector<Journal::Tally>{{match_one, 4, 0, 0, 2}}));
    auto aside = journal->aside(match_one, 0, 10);
    ASSERT_EQ(aside.size(), 2U);
    EXPECT_EQ(aside[0].entry.bytes, ours[3].bytes);
    EXPECT_EQ(aside[0].signature, "signed");
    EXPECT_EQ(aside[1].entry.bytes, ours[4].bytes);
    EXPECT_EQ(aside[1].signature, "");
    EXPECT_EQ(journal->aside(match_one, aside[0].id, 10).size(), 1U);
    ASSERT_FALSE(journal->settle_aside(
        {{aside[0].id, EntryStanding::on_branch}, {aside[1].id, EntryStanding::refused}}));
    aside = journal->aside(match_one, 0, 10);
    ASSERT_EQ(aside.size(), 1U);
    EXPECT_EQ(aside[0].entry.standing, EntryStanding::refused);
}

/// Brings a file back to the schema it had before signatures.
void make_schema_one(const std::filesystem::path& folder) {
    sqlite::Database db{Journal::file(folder).string()};
    db.exec(
        "DROP TABLE signature; DROP TABLE aside; DROP INDEX entry_unsettled;"
        "CREATE INDEX entry_waiting ON entry (match_id, seq) WHERE state = 'waiting';"
        "PRAGMA user_version=1");
    db.prepare("UPDATE setting SET value = ?, seal = ? WHERE name = 'schema'")
        .bind_bytes(1, "1")
        .bind(2, setting_seal("schema", "1"))
        .run();
}

TEST(Journal, AnOlderJournalIsBroughtToTheNewSchema) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    {
        const auto journal = open_journal(folder.path());
        for (int i = 0; i < 30; ++i) ASSERT_FALSE(journal->append(chain.next()));
        ASSERT_FALSE(journal->settle(
            match_one, {{1, EntryStanding::acknowledged}, {2, EntryStanding::refused}}));
        ASSERT_FALSE(journal->store({{match_one, "sheet"}}, {{"cursor", "42"}}));
    }
    make_schema_one(folder.path());
    for (int start = 0; start < 2; ++start) {
        const auto journal = open_journal(folder.path());
        EXPECT_FALSE(journal->recovery());
        EXPECT_EQ(journal->entries(match_one).size(), start == 0 ? 30U : 31U);
        EXPECT_EQ(journal->waiting(match_one, 100).size(), 28U);
        EXPECT_EQ(journal->count(match_one, EntryStanding::refused), 1U);
        EXPECT_EQ(journal->setting("cursor"), "42");
        EXPECT_EQ(journal->setting("schema"), "2");
        if (start == 0) {
            ASSERT_FALSE(journal->append(chain.next(), "signed"));
            ASSERT_FALSE(journal->settle(match_one, {{31, EntryStanding::acknowledged}}));
        }
    }
}

TEST(Journal, ADamagedOlderJournalIsSavedToo) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    {
        const auto journal = open_journal(folder.path());
        for (int i = 0; i < 30; ++i) ASSERT_FALSE(journal->append(chain.next()));
    }
    make_schema_one(folder.path());
    {
        sqlite::Database db{Journal::file(folder.path()).string()};
        db.exec("UPDATE entry SET seal = seal + 1 WHERE seq = 30");
    }
    const auto journal = open_journal(folder.path());
    ASSERT_TRUE(journal->recovery());
    EXPECT_EQ(journal->entries(match_one).size(), 29U);
}

TEST(Journal, TheUnsettledAreCountedForEachMatch) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    ChainMaker one{match_one};
    ChainMaker two{match_two};
    for (int i = 0; i < 5; ++i) ASSERT_FALSE(journal->append(one.next()));
    for (int i = 0; i < 2; ++i) ASSERT_FALSE(journal->append(two.next()));
    ASSERT_FALSE(journal->settle(match_one, {{1, EntryStanding::acknowledged},
                                             {2, EntryStanding::refused},
                                             {3, EntryStanding::on_branch}}));
    ASSERT_FALSE(journal->settle(
        match_two, {{1, EntryStanding::acknowledged}, {2, EntryStanding::acknowledged}}));
    EXPECT_EQ(journal->unsettled(), (std::vector<Journal::Tally>{{match_one, 2, 1, 1}}));
    EXPECT_EQ(journal->first_seq(match_one, EntryStanding::refused), 2U);
    EXPECT_EQ(journal->last_seq(match_one, EntryStanding::acknowledged), 1U);
    ASSERT_EQ(journal->unsettled(match_one, 2, 2).size(), 2U);
    EXPECT_EQ(journal->unsettled(match_one, 2, 2)[0].seq, 3U);
}

}  // namespace
}  // namespace courthand::client
