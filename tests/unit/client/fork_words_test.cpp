// What the table is told when it was decided which of two records counts: said once, at both
// devices, and nothing is recorded for it.
#include "client/session/fork_words.h"

#include <gtest/gtest.h>

#include "client/session/journaled_match.h"
#include "client/session/news.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

class ForkWords : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        device_ = table_of_court_four();
        const StoredMatch match =
            open_here(device_, 4, "international-2025", {"Harbour Lights", "Mill Lane"});
        ASSERT_FALSE(journal_->store({match}, {}));
        id_ = match.match_id;
    }
    void decide(bool enter_again, const std::string& note) {
        v1::RulingNotice notice;
        notice.set_alert_id("fork-1");
        notice.set_match_id(wire::Uuid::from_text(id_)->to_bytes());
        notice.set_reason("record-forked");
        notice.set_accepted(enter_again);
        notice.set_note(note);
        ASSERT_FALSE(journal_->store({}, {{ruling_setting("fork-1"), notice.SerializeAsString()}}));
    }
    void write_elsewhere() {
        v1::FetchMatchResponse sheet;
        ASSERT_TRUE(sheet.ParseFromString(journal_->match(id_)->sheet));
        sheet.mutable_writer()->set_number(2);
        sheet.mutable_writer()->set_device_id(std::string(16, 'o'));
        ASSERT_FALSE(journal_->store({{id_, sheet.SerializeAsString()}}, {}));
    }
    std::string told() {
        auto match = std::move(std::get<0>(JournaledMatch::open(*journal_, device_, id_, {})));
        static_cast<void>(match->poll());
        static_cast<void>(match->poll());
        EXPECT_TRUE(match->records().empty()) << "nothing is recorded for it";
        const auto news = unseen_news(*journal_);
        EXPECT_EQ(news.size(), 1U) << "said once";
        return news.empty() ? std::string{} : news.front();
    }

    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
    Device device_;
    std::string id_;
};

TEST_F(ForkWords, ThatEntriesAreToBeEnteredAgain) {
    decide(true, "entries 57 to 63 of Tablet 1");
    const std::string words = told();
    EXPECT_NE(words.find("entries 57 to 63 of Tablet 1"), std::string::npos) << words;
    EXPECT_NE(words.find("entered again, by hand"), std::string::npos) << words;
}

TEST_F(ForkWords, ThatTheRecordStandsAlsoAtTheDeviceThatWritesNoMore) {
    write_elsewhere();
    decide(false, "");
    const std::string words = told();
    EXPECT_NE(words.find("the record stands"), std::string::npos) << words;
    EXPECT_EQ(words.find("()"), std::string::npos) << words;
}

TEST_F(ForkWords, ADecisionIsAboutTheEntriesThatWereThereThen) {
    ChainMaker chain{id_};
    for (std::uint32_t seq = 1; seq <= 3; ++seq) ASSERT_FALSE(journal_->append(chain.next()));
    ASSERT_FALSE(
        journal_->settle(id_, {{2, EntryStanding::on_branch}, {3, EntryStanding::on_branch}}));
    EXPECT_NE(words_of_decision(*journal_, id_, 2).find("Ask the head official"),
              std::string::npos);
    ASSERT_FALSE(journal_->store({}, {kept_decision(*journal_, id_, true)}));
    EXPECT_NE(words_of_decision(*journal_, id_, 2).find("entered again"), std::string::npos);
    EXPECT_NE(words_of_decision(*journal_, id_, 3).find("Ask the head official"), std::string::npos)
        << "one more came since";
    ASSERT_FALSE(journal_->store({}, {kept_decision(*journal_, id_, false)}));
    EXPECT_NE(words_of_decision(*journal_, id_, 2).find("stands without them"), std::string::npos);
}

}  // namespace
}  // namespace courthand::client
