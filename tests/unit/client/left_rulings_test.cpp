// A ruling that comes when its table has gone on to another match.
#include "client/session/left_rulings.h"

#include <gtest/gtest.h>

#include "client/session/news.h"
#include "tests/unit/client/journal_kit.h"
#include "wire/fact_convert.h"

namespace courthand::client {
namespace {

class LeftRulings : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        device_ = table_of_court_four();
        left_ = new_match();
        shown_ = new_match();
        // An interval where there is none is a fault that stands until it is ruled.
        const auto match = open(left_);
        ASSERT_FALSE(match->record(Fact{Interval{}}).error);
        ASSERT_EQ(match->standing().size(), 1U);
        fault_ = match->standing().front();
        rule("alert-1");
    }
    std::string new_match() {
        const StoredMatch match =
            open_here(device_, 4, "international-2025", {"Harbour Lights", "Mill Lane"});
        EXPECT_FALSE(journal_->store({match}, {}));
        return match.match_id;
    }
    std::unique_ptr<JournaledMatch> open(const std::string& id) {
        return std::move(std::get<0>(JournaledMatch::open(*journal_, device_, id, {})));
    }
    void rule(const std::string& alert) {
        v1::RulingNotice notice;
        notice.set_alert_id(alert);
        notice.set_match_id(wire::Uuid::from_text(left_)->to_bytes());
        notice.set_reason(std::string{describe(fault_.reason).word});
        notice.set_team(wire::to_proto(fault_.team));
        notice.set_seq(fault_.entry);
        ASSERT_FALSE(journal_->store({}, {{ruling_setting(alert), notice.SerializeAsString()}}));
    }
    void write_elsewhere() {
        v1::FetchMatchResponse sheet;
        ASSERT_TRUE(sheet.ParseFromString(journal_->match(left_)->sheet));
        sheet.mutable_writer()->set_number(2);
        sheet.mutable_writer()->set_device_id(std::string(16, 'o'));
        ASSERT_FALSE(journal_->store({{left_, sheet.SerializeAsString()}}, {}));
    }

    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
    Device device_;
    std::string left_;
    std::string shown_;
    Verdict fault_{};
};

TEST_F(LeftRulings, AreRecordedAndTold) {
    int written = 0;
    SessionHooks hooks;
    hooks.written = [&written] { ++written; };
    record_left_rulings(*journal_, device_, shown_, hooks);
    EXPECT_TRUE(open(left_)->standing().empty());
    EXPECT_EQ(written, 1) << "and the entry is sent";
    EXPECT_TRUE(journal_->settings(ruling_prefix).empty());
    ASSERT_EQ(unseen_news(*journal_).size(), 1U);
    EXPECT_NE(unseen_news(*journal_)[0].find("Harbour Lights"), std::string::npos);
    record_left_rulings(*journal_, device_, shown_, hooks);
    EXPECT_EQ(written, 1);
}

TEST_F(LeftRulings, ThatRecordNothingAreToldToo) {
    record_left_rulings(*journal_, device_, shown_, {});
    rule("alert-2");
    record_left_rulings(*journal_, device_, shown_, {});
    ASSERT_EQ(unseen_news(*journal_).size(), 2U);
    EXPECT_NE(unseen_news(*journal_)[1].find("nothing more was recorded"), std::string::npos);
}

TEST_F(LeftRulings, OfTheMatchOnTheScreenAreItsSessionsToTake) {
    record_left_rulings(*journal_, device_, left_, {});
    EXPECT_EQ(open(left_)->standing().size(), 1U);
    EXPECT_EQ(journal_->settings(ruling_prefix).size(), 1U);
}

TEST_F(LeftRulings, OfAMatchThatAnotherDeviceWritesAreThatDevices) {
    write_elsewhere();
    record_left_rulings(*journal_, device_, shown_, {});
    EXPECT_EQ(open(left_)->standing().size(), 1U);
    EXPECT_TRUE(unseen_news(*journal_).empty());
}

/// It was fenced, and its screen has gone on to the next match of the court.
TEST_F(LeftRulings, OnEntriesBesideTheRecordAreToldToADeviceThatWritesNoMore) {
    write_elsewhere();
    v1::RulingNotice notice;
    notice.set_alert_id("fork-1");
    notice.set_match_id(wire::Uuid::from_text(left_)->to_bytes());
    notice.set_reason("record-forked");
    ASSERT_FALSE(journal_->store({}, {{ruling_setting("fork-1"), notice.SerializeAsString()}}));
    for (int look = 0; look < 2; ++look) record_left_rulings(*journal_, device_, shown_, {});
    ASSERT_EQ(unseen_news(*journal_).size(), 1U) << "said once";
    const std::string words = unseen_news(*journal_)[0];
    EXPECT_NE(words.find("Harbour Lights"), std::string::npos) << words;
    EXPECT_NE(words.find("the record stands"), std::string::npos) << words;
    // The ruling on the fault is the other device's to record.
    EXPECT_EQ(open(left_)->standing().size(), 1U);
    EXPECT_EQ(journal_->settings(ruling_prefix).size(), 1U);
}

TEST_F(LeftRulings, ThatTakeTheEndOfTheMatchBackSayThatItGoesOn) {
    const MatchSheet sheet = open(left_)->sheet();
    EXPECT_EQ(words_of_left_ruling(sheet, false).find("go on"), std::string::npos);
    const std::string words = words_of_left_ruling(sheet, true);
    EXPECT_NE(words.find("Harbour Lights - Mill Lane"), std::string::npos) << words;
    EXPECT_NE(words.find("not over any more"), std::string::npos) << words;
}

}  // namespace
}  // namespace courthand::client
