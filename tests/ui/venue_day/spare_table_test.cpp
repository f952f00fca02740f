// A tablet is lost in the middle of its match. A person opens the spare one of the court, sees the
// match, asks with one touch, and goes on by hand: real windows, a real server, TLS.
#include <gtest/gtest.h>

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QTest>

#include "client/app/table_screen.h"
#include "client/enrol/device_folder.h"
#include "client/session/stored_sheet.h"
#include "client/sync/channel.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "screen_hand.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/protocol_version.h"

namespace courthand::client::test {
namespace {

constexpr int court = 1;

/// Lets the windows live while it waits.
bool comes(const std::function<bool()>& condition) {
    return QTest::qWaitFor(condition, 30000);
}

class SpareTable : public testing::Test {
  protected:
    void SetUp() override {
        auto lost = open_table(venue_.enrol_table("table-1", court));
        ASSERT_NE(lost, nullptr);
        ASSERT_TRUE(wait_until([&] { return !(id_ = lost->next_match()).empty(); }));
        auto opened = lost->open_match(id_);
        auto match = std::move(std::get<0>(opened));
        play_steps(*match, 61, 150);
        ASSERT_TRUE(wait_until([&] { return lost->all_sent(); })) << lost->status(id_).last_error;
        lost_device_ = lost->device();
        sent_ = match->records().size();
        const Stage stage = match->state().set.stage;
        ASSERT_TRUE(stage == Stage::in_play || stage == Stage::dead_ball)
            << "in the middle of a set";
    }
    void open_spare() {
        spare_folder_ = venue_.enrol_table("table-1-spare", court);
        engine_ = std::make_unique<QQmlApplicationEngine>();
        engine_->addImportPath(QStringLiteral("qrc:/qt/qml"));
        screen_ = std::make_unique<TableScreen>(open_table(spare_folder_), *engine_);
        const std::string wrong = screen_->open();
        ASSERT_EQ(wrong, "");
        window_ = qobject_cast<QQuickWindow*>(engine_->rootObjects().constFirst());
        ASSERT_NE(window_, nullptr);
        window_->resize(1280, 800);
        ASSERT_TRUE(QTest::qWaitForWindowExposed(window_));
        hand_ = std::make_unique<ScreenHand>(*window_);
    }
    void withdraw_the_lost_one() {
        const auto folder = venue_.enrol_seat("desk", "desk");
        const auto desk = v1::Desk::NewStub(
            make_channel(venue_.host().address(), std::get<Credentials>(load_credentials(folder))));
        v1::RevokeDeviceRequest request;
        request.set_device_id(id_bytes(lost_device_));
        request.set_reason("lost");
        v1::RevokeDeviceResponse answer;
        grpc::ClientContext context;
        prepare_context(context, wire::protocol_version);
        ASSERT_TRUE(desk->RevokeDevice(&context, request, &answer).ok());
    }
    void TearDown() override {
        hand_.reset();
        engine_.reset();
        screen_.reset();
    }

    Venue venue_;
    std::string id_;
    std::size_t sent_ = 0;
    Device lost_device_;
    std::filesystem::path spare_folder_;
    std::unique_ptr<QQmlApplicationEngine> engine_;
    std::unique_ptr<TableScreen> screen_;
    QQuickWindow* window_ = nullptr;
    std::unique_ptr<ScreenHand> hand_;
};

TEST_F(SpareTable, ShowsTheMatchAsksWithOneTouchAndGoesOn) {
    open_spare();
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("askToGoOn")); }))
        << "no practice, and not the next match: the one that is played";
    ASSERT_TRUE(comes([&] { return screen_->match().records().size() == sent_; }));
    EXPECT_FALSE(hand_->shows(QStringLiteral("wonLeft")));
    hand_->picture(QStringLiteral("spare-table"));
    withdraw_the_lost_one();
    ASSERT_TRUE(hand_->touch(QStringLiteral("askToGoOn")));
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("wonLeft")); }))
        << hand_->text(QStringLiteral("wish")).toStdString();
    EXPECT_EQ(screen_->match().records().size(), sent_) << "at the last entry of the server";
    ASSERT_TRUE(hand_->touch(QStringLiteral("wonLeft")));
    EXPECT_GT(screen_->match().records().size(), sent_);
    ASSERT_TRUE(comes([&] { return screen_->station().all_sent(); }));
    EXPECT_TRUE(comes(
        [&] { return hand_->text(QStringLiteral("saved")) == QStringLiteral("saved and sent"); }));
    EXPECT_EQ(venue_.record(spare_folder_, id_),
              bytes_of_journal(screen_->station().journal(), id_));
}

}  // namespace
}  // namespace courthand::client::test
