// A disk that fails under an open journal: the match stays on the screen as it was read last, and
// the person is told what to do.
#include <gtest/gtest.h>

#include "client/journal/unreadable_journal.h"
#include "client/session/journaled_match.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

class FailingDisk : public testing::Test {
  protected:
    void SetUp() override {
        device_.id = "01900000-0000-7000-a000-000000000004";
        device_.court = 4;
        journal_ = open_journal(folder_.path());
        const StoredMatch match =
            open_here(device_, 4, "international-2025", {"Quayside", "Saltmarsh"});
        ASSERT_FALSE(journal_->store({match}, {}));
        id_ = match.match_id;
        auto opened = JournaledMatch::open(*journal_, device_, id_, {});
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        match_ = std::move(std::get<0>(opened));
        for (int i = 0; i < 5; ++i)
            ASSERT_FALSE(match_->record(Fact{Note{Note::Kind::remark}}, "kept").error);
    }
    ScratchFolder folder_;
    Device device_;
    std::unique_ptr<Journal> journal_;
    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

TEST_F(FailingDisk, KeepsWhatIsShownAndSaysWhatToDo) {
    spoil_the_disk(*journal_, folder_.path());
    ASSERT_THROW(static_cast<void>(journal_->entries(id_)), UnreadableJournal)
        << "the disk of this test does not fail";
    bool changed = true;
    ASSERT_NO_THROW(changed = match_->poll());
    EXPECT_FALSE(changed);
    EXPECT_EQ(match_->records().size(), 6U) << "what can be shown is gone";
    SyncStatus status;
    ASSERT_NO_THROW(status = match_->sync_status());
    EXPECT_FALSE(status.all_sent());
    EXPECT_NE(status.unreadable.find("another device"), std::string::npos) << status.unreadable;
    // Whether another entry can be kept is said of that entry; nothing ends the window.
    ASSERT_NO_THROW(match_->record(Fact{Note{Note::Kind::remark}}, "one more"));
}

TEST_F(FailingDisk, IsNotSaidOfOneThatIsWhole) {
    EXPECT_FALSE(match_->poll());
    EXPECT_EQ(match_->sync_status().unreadable, "");
}

}  // namespace
}  // namespace courthand::client
