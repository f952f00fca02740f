// A tablet dies in the middle of its match and another one goes on, over a real server and TLS: by
// the desk withdrawing the dead one, and by a person who consents.
#include <grpcpp/channel.h>
#include <gtest/gtest.h>

#include "client/enrol/device_folder.h"
#include "client/session/news.h"
#include "client/session/stored_sheet.h"
#include "client/sync/channel.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/protocol_version.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

class TakeOver : public testing::Test {
  protected:
    void SetUp() override {
        old_folder_ = venue_.enrol_table("table-1", 1);
        old_ = open_table(old_folder_);
        ASSERT_NE(old_, nullptr);
        ASSERT_TRUE(eventually([&] { return !(id_ = old_->next_match()).empty(); }));
        old_match_ = open_match(*old_);
        play_steps(*old_match_, 61, 120);
        ASSERT_TRUE(eventually([&] { return old_->all_sent(); })) << old_->status(id_).last_error;
        sent_ = old_match_->records().size();
    }
    std::unique_ptr<JournaledMatch> open_match(TableStation& table) {
        auto opened = table.open_match(id_);
        if (const auto* wrong = std::get_if<std::string>(&opened)) {
            ADD_FAILURE() << *wrong;
            return nullptr;
        }
        return std::move(std::get<0>(opened));
    }
    /// A second device of the court, as it shows the match of the first one.
    void open_spare() {
        spare_folder_ = venue_.enrol_table("table-1-spare", 1);
        spare_ = open_table(spare_folder_);
        ASSERT_NE(spare_, nullptr);
        ASSERT_TRUE(eventually([&] { return spare_->match_to_show() == id_; }));
        spare_match_ = open_match(*spare_);
        ASSERT_NE(spare_match_, nullptr);
        ASSERT_TRUE(eventually([&] {
            spare_match_->poll();
            return spare_match_->records().size() == sent_;
        }));
        EXPECT_EQ(spare_match_->writing().who, Writing::Who::elsewhere);
        EXPECT_EQ(state_hash(spare_match_->state()), state_hash(old_match_->state()));
    }
    ::testing::AssertionResult spare_writes() {
        return eventually([&] {
            spare_match_->poll();
            return spare_match_->writing().who == Writing::Who::here;
        });
    }
    void expect_it_goes_on() {
        ASSERT_EQ(spare_match_->records().size(), sent_);
        play_steps(*spare_match_, 62, 60);
        ASSERT_TRUE(eventually([&] { return spare_->all_sent(); }))
            << spare_->status(id_).last_error;
        EXPECT_EQ(spare_->status(id_).beside, 0U);
        EXPECT_EQ(venue_.record(spare_folder_, id_), bytes_of_journal(spare_->journal(), id_));
    }
    std::shared_ptr<grpc::Channel> channel_of(const std::string& seat) {
        const auto folder = venue_.enrol_seat(seat, seat);
        return make_channel(venue_.host().address(),
                            std::get<Credentials>(load_credentials(folder)));
    }
    /// The head official answers the wish of a device.
    grpc::Status answer_wish(const Device& device, bool consent) {
        if (!head_) head_ = v1::Venue::NewStub(channel_of("head"));
        v1::AnswerTakeOverRequest request;
        request.set_match_id(match_bytes());
        request.set_device_id(id_bytes(device));
        request.set_consent(consent);
        request.set_by("Head official");
        v1::AnswerTakeOverResponse answer;
        grpc::ClientContext context;
        prepare_context(context, wire::protocol_version);
        return head_->AnswerTakeOver(&context, request, &answer);
    }
    /// Asks, and the head official consents.
    void go_on_at_the_spare() {
        spare_match_->ask_to_go_on();
        ASSERT_TRUE(
            eventually([&] { return spare_match_->writing().wish == Writing::Wish::asked; }));
        const grpc::Status status = answer_wish(spare_->device(), true);
        ASSERT_TRUE(status.ok()) << status.error_message();
        ASSERT_TRUE(spare_writes()) << spare_match_->writing().words;
    }
    [[nodiscard]] std::string match_bytes() const { return wire::Uuid::from_text(id_)->to_bytes(); }

    Venue venue_;
    std::filesystem::path old_folder_;
    std::filesystem::path spare_folder_;
    std::unique_ptr<TableStation> old_;
    std::unique_ptr<TableStation> spare_;
    std::unique_ptr<JournaledMatch> old_match_;
    std::unique_ptr<JournaledMatch> spare_match_;
    std::string id_;
    std::size_t sent_ = 0;
    std::unique_ptr<v1::Venue::Stub> head_;
};

TEST_F(TakeOver, LookingWithASpareTabletTakesNothingFromTheTable) {
    open_spare();
    ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    ASSERT_TRUE(eventually([&] { return old_->all_sent(); }));
    EXPECT_EQ(old_->status(id_).beside, 0U);
    EXPECT_EQ(old_match_->writing().who, Writing::Who::here);
    EXPECT_TRUE(spare_match_->record(Fact{Note{Note::Kind::remark}}, "no").error);
    EXPECT_TRUE(spare_->journal().unsettled().empty());
}

TEST_F(TakeOver, TheDeskWithdrawsTheDeadTabletAndTheSpareGoesOnAtTheLastEntry) {
    const Device dead = old_->device();
    old_match_.reset();
    old_.reset();
    const auto before = bytes_of_journal(*open_journal(old_folder_), id_);
    {
        // The picture of the record before its table died.
        const auto journal = open_journal(old_folder_);
        auto opened = JournaledMatch::open(*journal, dead, id_, {});
        old_match_ = std::move(std::get<0>(opened));
        open_spare();
        old_match_.reset();
    }
    const auto desk = v1::Desk::NewStub(channel_of("desk"));
    v1::RevokeDeviceRequest request;
    request.set_device_id(id_bytes(dead));
    request.set_reason("the tablet fell into the water");
    v1::RevokeDeviceResponse answer;
    grpc::ClientContext context;
    prepare_context(context, wire::protocol_version);
    ASSERT_TRUE(desk->RevokeDevice(&context, request, &answer).ok());
    spare_match_->ask_to_go_on();
    ASSERT_TRUE(spare_writes()) << spare_match_->writing().words;
    expect_it_goes_on();
    EXPECT_EQ(before.size(), sent_);
}

TEST_F(TakeOver, AskedConsentedAndTheOldTabletIsFenced) {
    open_spare();
    spare_match_->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return spare_match_->writing().wish == Writing::Wish::asked; }))
        << spare_match_->writing().words;
    const grpc::Status status = answer_wish(spare_->device(), false);
    ASSERT_TRUE(status.ok()) << status.error_message();
    ASSERT_TRUE(
        eventually([&] { return spare_match_->writing().wish == Writing::Wish::declined; }));
    ASSERT_NO_FATAL_FAILURE(go_on_at_the_spare());
    expect_it_goes_on();
    // The old tablet comes back: it is told, keeps recording, and its entries lie on a branch.
    ASSERT_TRUE(eventually([&] {
        old_match_->poll();
        return old_match_->writing().who == Writing::Who::fenced;
    }));
    ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "from the old one").error);
    ASSERT_TRUE(eventually([&] { return old_->status(id_).beside == 1; }))
        << old_->status(id_).last_error;
    EXPECT_EQ(venue_.record(spare_folder_, id_), bytes_of_journal(spare_->journal(), id_));
}

// The old tablet asks for its match, loses the network, records on, and is consented to meanwhile.
TEST_F(TakeOver, GivenBackWhileAnEntryWaitsTheMatchGoesOnAtTheServersLastEntry) {
    open_spare();
    ASSERT_NO_FATAL_FAILURE(go_on_at_the_spare());
    ASSERT_TRUE(eventually([&] {
        old_match_->poll();
        return old_match_->writing().who == Writing::Who::fenced;
    }));
    old_match_->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return old_match_->writing().wish == Writing::Wish::asked; }));
    const Device device = old_->device();
    old_match_.reset();
    old_.reset();
    {
        const auto journal = open_journal(old_folder_);
        auto opened = JournaledMatch::open(*journal, device, id_, {});
        auto& match = *std::get<0>(opened);
        ASSERT_FALSE(match.record(Fact{Note{Note::Kind::remark}}, "without a network").error);
    }
    const grpc::Status status = answer_wish(device, true);
    ASSERT_TRUE(status.ok()) << status.error_message();
    old_ = open_table(old_folder_);
    old_match_ = open_match(*old_);
    ASSERT_NE(old_match_, nullptr);
    ASSERT_TRUE(eventually([&] {
        old_match_->poll();
        return old_match_->writing().who == Writing::Who::here &&
               old_match_->records().size() == sent_;
    })) << "what waits keeps it from the record";
    EXPECT_EQ(unseen_news(old_->journal()).size(), 1U) << "a person is told";
    ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    ASSERT_TRUE(eventually([&] { return old_->all_sent(); })) << old_->status(id_).last_error;
    EXPECT_EQ(old_->status(id_).beside, 0U);
    EXPECT_EQ(venue_.record(old_folder_, id_), bytes_of_journal(old_->journal(), id_));
    EXPECT_EQ(old_->journal().aside(id_, 0, 10, Journal::Which::all).size(), 1U)
        << "what was written meanwhile is kept";
}

}  // namespace
}  // namespace courthand::client
