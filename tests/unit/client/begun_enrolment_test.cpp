// What is kept of an enrolment that was cut short, and what a start makes of it.
#include "client/enrol/begun_enrolment.h"

#include <gtest/gtest.h>

#include "client/enrol/device_folder.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

class BegunEnrolment : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        EnrolmentAnswer answer;
        answer.device.id = "01900000-0000-7000-a000-000000000004";
        answer.device.court = 4;
        answer.certificate = "another certificate";
        answer.authority = "another authority";
        ASSERT_FALSE(keep_answer(*journal_, answer));
    }
    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
};

// A table in use was kept from opening by an enrolment anew that had come to nothing.
TEST_F(BegunEnrolment, ThatLostItsKeyKeepsNoDeviceFromItsWork) {
    ASSERT_FALSE(save_credentials(folder_.path(), {"key", "certificate", "authority"}));
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt);
    EXPECT_EQ(std::get<Credentials>(load_credentials(folder_.path())).certificate, "certificate");
    EXPECT_EQ(journal_->setting("device/id"), "") << "the device stays what it is";
    EXPECT_TRUE(journal_->settings("enrolling/").empty());
    EXPECT_FALSE(journal_->has_setting("enrolling/certificate")) << "nothing is left of it";
}

TEST_F(BegunEnrolment, ThatLostItsKeyIsToldWhereThereIsNoOther) {
    const auto wrong = finish_enrolment(folder_.path(), *journal_);
    ASSERT_TRUE(wrong);
    EXPECT_NE(wrong->find("enrol it anew"), std::string::npos) << *wrong;
}

TEST_F(BegunEnrolment, ThatIsFinishedLeavesNothingBehind) {
    const EnrolmentKey kept{folder_.path()};
    ASSERT_TRUE(std::holds_alternative<SigningRequest>(kept.request()));
    EXPECT_EQ(finish_enrolment(folder_.path(), *journal_), std::nullopt);
    EXPECT_EQ(journal_->setting("device/court"), "4");
    EXPECT_FALSE(journal_->has_setting("enrolling/certificate"));
    EXPECT_FALSE(journal_->has_setting("enrolling/authority"));
}

}  // namespace
}  // namespace courthand::client
