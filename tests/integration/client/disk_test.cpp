// A disk that is really full, and a journal that was really cut short, seen from the table.
#include <gtest/gtest.h>

#include <sys/mount.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <fstream>

#include "client/journal/files.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

namespace fs = std::filesystem;

/// A file system of 600 KiB for one test. Only root may mount; others use a page limit (unit test).
class TinyDisk {
  public:
    explicit TinyDisk(const fs::path& at) : at_{at} {
        fs::create_directories(at);
        mounted_ = geteuid() == 0 && mount("tmpfs", at.c_str(), "tmpfs", 0, "size=600k") == 0;
    }
    TinyDisk(const TinyDisk&) = delete;
    TinyDisk& operator=(const TinyDisk&) = delete;
    ~TinyDisk() {
        if (mounted_) umount2(at_.c_str(), MNT_DETACH);
    }
    [[nodiscard]] bool mounted() const { return mounted_; }

  private:
    fs::path at_;
    bool mounted_ = false;
};

/// Fills what is left; removing the file makes room again.
void fill(const fs::path& file) {
    std::ofstream out{file, std::ios::binary};
    const std::string block(4096, 'x');
    while (out.write(block.data(), static_cast<std::streamsize>(block.size())).flush()) {
    }
}

TEST(FullDisk, IsSaidAndGoesOnOnceThereIsRoom) {
    const ScratchFolder scratch;
    const fs::path folder = scratch.path() / "device";
    const TinyDisk disk{folder};
    auto table = open_table(folder);
    ASSERT_NE(table, nullptr);
    const auto id = std::get<std::string>(
        table->open_practice("international-2025", {"Quayside", "Saltmarsh"}));
    auto opened = table->open_match(id);
    auto& match = *std::get<0>(opened);
    ASSERT_FALSE(match.record(Fact{Note{Note::Kind::remark}}, "before").error);
    if (!disk.mounted()) {
        GTEST_LOG_(INFO) << "no right to mount a small disk: the page limit of the unit test "
                            "covers the full disk";
        return;
    }
    fill(folder / "filler");
    RecordResult result;
    std::size_t saved = 0;
    for (int i = 0; i < 500 && !result.error; ++i) {
        saved = match.records().size();
        result = match.record(Fact{Note{Note::Kind::remark}}, std::string(400, 'y'));
    }
    ASSERT_TRUE(result.error);
    EXPECT_NE(result.error->find("full"), std::string::npos) << *result.error;
    EXPECT_EQ(match.records().size(), saved);
    fs::remove(folder / "filler");
    const RecordResult again = match.record(Fact{Note{Note::Kind::remark}}, "after");
    EXPECT_FALSE(again.error) << *again.error;
    EXPECT_EQ(match.records().size(), saved + 1);
    table.reset();
    const auto journal = open_journal(folder);
    EXPECT_FALSE(journal->recovery());
    EXPECT_EQ(journal->entries(id).size(), saved + 1);
}

class TruncatedJournal : public testing::Test {
  protected:
    /// Plays and sends a part of a match, then cuts its journal in half.
    void SetUp() override {
        folder_ = venue_.enrol_table("table-1", 1);
        {
            auto table = open_table(folder_);
            ASSERT_TRUE(eventually([&] { return !(id_ = table->next_match()).empty(); }));
            auto opened = table->open_match(id_);
            play_steps(*std::get<0>(opened), 8, 300);
            written_ = std::get<0>(opened)->records().size();
            ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
        }
        fs::resize_file(journal_file(folder_), fs::file_size(journal_file(folder_)) / 2);
    }
    void expect_loss_told(TableStation& table) {
        const std::string words = table.recovery_words();
        EXPECT_NE(words.find(id_), std::string::npos) << words;
        EXPECT_NE(words.find("are lost"), std::string::npos) << words;
        EXPECT_TRUE(fs::exists(folder_ / "journal.damaged-1.db"));
    }
    Venue venue_;
    fs::path folder_;
    std::string id_;
    std::size_t written_ = 0;
};

TEST_F(TruncatedJournal, ComesBackWholeFromTheServer) {
    auto table = open_table(folder_);
    ASSERT_NE(table, nullptr);
    expect_loss_told(*table);
    ASSERT_TRUE(eventually([&] { return table->journal().last_seq(id_) == written_; }))
        << table->status(id_).last_error;
    EXPECT_EQ(bytes_of_journal(table->journal(), id_), venue_.record(folder_, id_));
    auto opened = table->open_match(id_);
    ASSERT_FALSE(std::get<0>(opened)->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
    EXPECT_EQ(venue_.record(folder_, id_).size(), written_ + 1);
}

TEST_F(TruncatedJournal, WithNoServerThePrefixGoesOnAndTheForkIsTold) {
    venue_.host().kill9();
    auto table = open_table(folder_);
    ASSERT_NE(table, nullptr);
    expect_loss_told(*table);
    auto opened = table->open_match(id_);
    ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
    auto& match = *std::get<0>(opened);
    const std::size_t kept = match.records().size();
    EXPECT_LT(kept, written_);
    EXPECT_GT(kept, 0U);
    ASSERT_FALSE(match.record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    venue_.host().start_again();
    // Another record than the server's now: kept beside it, and said at the table.
    ASSERT_TRUE(eventually([&] {
        return table->journal().count(id_, EntryStanding::on_branch) == 1;
    })) << table->status(id_).last_error;
    EXPECT_EQ(venue_.record(folder_, id_).size(), written_);
    EXPECT_TRUE(eventually([&] {
        return table->status(id_).last_error.find("beside the record") != std::string::npos;
    }));
}

}  // namespace
}  // namespace courthand::client
