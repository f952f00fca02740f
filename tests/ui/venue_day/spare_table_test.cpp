// A tablet is lost in the middle of its match. A person opens the spare one of the court, sees the
// match, asks with one touch, and goes on by hand, once the desk has withdrawn the lost one or the
// head official consents; or the desk moves the match away. Real windows, a real server, TLS.
#include <gtest/gtest.h>

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QTest>

#include "client/app/enrolled_seat.h"
#include "client/app/head_screen.h"
#include "client/app/table_screen.h"
#include "client/enrol/device_folder.h"
#include "client/session/stored_sheet.h"
#include "client/sync/channel.h"
#include "courthand/v1/desk.grpc.pb.h"
#include "head_eyes.h"
#include "screen_hand.h"
#include "tests/integration/client/venue_kit.h"
#include "wire/protocol_version.h"
#include "wire/uuid.h"

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
        lost_folder_ = venue_.enrol_table("table-1", court);
        auto lost = open_table(lost_folder_);
        ASSERT_NE(lost, nullptr);
        ASSERT_TRUE(eventually([&] { return !(id_ = lost->next_match()).empty(); }));
        auto opened = lost->open_match(id_);
        auto match = std::move(std::get<0>(opened));
        play_steps(*match, 61, 150);
        ASSERT_TRUE(eventually([&] { return lost->all_sent(); })) << lost->status(id_).last_error;
        lost_device_ = lost->device();
        sent_ = match->records().size();
        const Stage stage = match->state().set.stage;
        ASSERT_TRUE(stage == Stage::in_play || stage == Stage::dead_ball)
            << "in the middle of a set";
    }
    static std::unique_ptr<QQmlApplicationEngine> new_engine() {
        auto engine = std::make_unique<QQmlApplicationEngine>();
        engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
        return engine;
    }
    static void show(QQmlApplicationEngine& engine, QQuickWindow*& window) {
        window = qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst());
        ASSERT_NE(window, nullptr);
        window->resize(1280, 800);
        ASSERT_TRUE(QTest::qWaitForWindowExposed(window));
    }
    void open_screen(const std::filesystem::path& folder) {
        engine_ = new_engine();
        screen_ = std::make_unique<TableScreen>(open_table(folder), *engine_);
        const std::string wrong = screen_->open();
        ASSERT_EQ(wrong, "");
        ASSERT_NO_FATAL_FAILURE(show(*engine_, window_));
        hand_ = std::make_unique<ScreenHand>(*window_);
    }
    void open_spare() {
        spare_folder_ = venue_.enrol_table("table-1-spare", court);
        open_screen(spare_folder_);
    }
    void open_head() {
        SeatOptions options;
        options.folder = venue_.enrol_seat("head", "head");
        options.seat = Seat::head;
        const auto known = enrolled_seat(options);
        ASSERT_TRUE(std::holds_alternative<EnrolledSeat>(known));
        head_engine_ = new_engine();
        head_screen_ = std::make_unique<HeadScreen>(std::get<EnrolledSeat>(known), *head_engine_);
        const std::string wrong = head_screen_->open(false);
        ASSERT_EQ(wrong, "");
        QQuickWindow* window = nullptr;
        ASSERT_NO_FATAL_FAILURE(show(*head_engine_, window));
        head_ = std::make_unique<HeadEyes>(*window, head_screen_->seat(), court);
    }
    template <class Request, class Response>
    void ask_the_desk(grpc::Status (v1::Desk::Stub::*method)(grpc::ClientContext*, const Request&,
                                                             Response*),
                      const Request& request) {
        if (!desk_) {
            const auto keys = load_credentials(venue_.enrol_seat("desk", "desk"));
            desk_ = v1::Desk::NewStub(
                make_channel(venue_.host().address(), std::get<Credentials>(keys)));
        }
        Response answer;
        grpc::ClientContext context;
        prepare_context(context, wire::protocol_version);
        ASSERT_TRUE((desk_.get()->*method)(&context, request, &answer).ok());
        if constexpr (std::is_same_v<Response, v1::ListMatchesResponse>) matches_ = answer;
    }
    void put_on_court(const std::string& match_bytes, std::uint32_t on) {
        v1::AssignCourtRequest request;
        request.set_match_id(match_bytes);
        request.set_court(on);
        ask_the_desk(&v1::Desk::Stub::AssignCourt, request);
    }
    /// A match of the plan that is on another court than this one.
    [[nodiscard]] std::string another_match() {
        ask_the_desk(&v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{});
        for (const v1::Match& match : matches_.matches())
            if (match.court() != court) return match.match_id();
        return {};
    }
    void withdraw_the_lost_one() {
        v1::RevokeDeviceRequest request;
        request.set_device_id(id_bytes(lost_device_));
        request.set_reason("lost");
        ask_the_desk(&v1::Desk::Stub::RevokeDevice, request);
    }
    /// The spare one writes: it records what is touched, and the server has it in the record.
    void expect_it_plays_on() {
        EXPECT_EQ(screen_->match().records().size(), sent_) << "at the last entry of the server";
        ASSERT_TRUE(hand_->touch(QStringLiteral("wonLeft")));
        EXPECT_GT(screen_->match().records().size(), sent_);
        ASSERT_TRUE(comes([&] { return screen_->station().all_sent(); }));
        EXPECT_TRUE(comes([&] {
            return hand_->text(QStringLiteral("saved")) == QStringLiteral("saved and sent");
        }));
        EXPECT_EQ(venue_.record(spare_folder_, id_),
                  bytes_of_journal(screen_->station().journal(), id_));
    }
    void TearDown() override {
        head_.reset();
        head_engine_.reset();
        head_screen_.reset();
        hand_.reset();
        engine_.reset();
        screen_.reset();
    }

    Venue venue_;
    std::string id_;
    std::size_t sent_ = 0;
    Device lost_device_;
    std::filesystem::path lost_folder_;
    std::filesystem::path spare_folder_;
    std::unique_ptr<QQmlApplicationEngine> engine_;
    std::unique_ptr<TableScreen> screen_;
    QQuickWindow* window_ = nullptr;
    std::unique_ptr<ScreenHand> hand_;
    std::unique_ptr<QQmlApplicationEngine> head_engine_;
    std::unique_ptr<HeadScreen> head_screen_;
    std::unique_ptr<HeadEyes> head_;
    std::unique_ptr<v1::Desk::Stub> desk_;
    v1::ListMatchesResponse matches_;
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
    expect_it_plays_on();
}

TEST_F(SpareTable, AsksTheHeadOfficialConsentsWithOneTouchAndItGoesOn) {
    open_head();
    open_spare();
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("askToGoOn")); }));
    ASSERT_TRUE(comes([&] { return screen_->match().records().size() == sent_; }));
    ASSERT_TRUE(hand_->touch(QStringLiteral("askToGoOn")));
    ASSERT_TRUE(comes([&] {
        return hand_->text(QStringLiteral("wish")).contains(QStringLiteral("Waiting"));
    })) << hand_->text(QStringLiteral("wish")).toStdString();
    EXPECT_FALSE(hand_->shows(QStringLiteral("wonLeft"))) << "nobody has consented";

    const QString alert = head_->sees_alert(QStringLiteral("Take over asked"));
    ASSERT_FALSE(alert.isEmpty());
    head_->screen().picture(QStringLiteral("spare-table-head"));
    ASSERT_TRUE(comes([&] { return head_->screen().touch(QStringLiteral("goOn-") + alert); }));

    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("wonLeft")); }))
        << hand_->text(QStringLiteral("wish")).toStdString();
    expect_it_plays_on();
    EXPECT_TRUE(head_->sees(screen_->match().state()));
    EXPECT_TRUE(head_->sees_no_alert(QStringLiteral("Take over asked")));
}

TEST_F(SpareTable, WhatTheLostOneStillSendsIsReadBesideTheRecordAndSettledByTheHeadOfficial) {
    {
        // What it recorded while nobody could reach it.
        const auto lost = open_table(lost_folder_, "127.0.0.1:1");
        ASSERT_NE(lost, nullptr);
        auto opened = lost->open_match(id_);
        play_steps(*std::get<0>(opened), 62, 3);
    }
    open_head();
    open_spare();
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("askToGoOn")); }));
    ASSERT_TRUE(comes([&] { return screen_->match().records().size() == sent_; }));
    ASSERT_TRUE(hand_->touch(QStringLiteral("askToGoOn")));
    const QString wish = head_->sees_alert(QStringLiteral("Take over asked"));
    ASSERT_FALSE(wish.isEmpty());
    ASSERT_TRUE(comes([&] { return head_->screen().touch(QStringLiteral("goOn-") + wish); }));
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("wonLeft")); }));
    expect_it_plays_on();

    const auto lost = open_table(lost_folder_);
    ASSERT_NE(lost, nullptr);
    const QString forked = head_->sees_alert(QStringLiteral("Record forked"));
    ASSERT_FALSE(forked.isEmpty());
    EXPECT_TRUE(head_->settles_fork(forked, QStringLiteral("spare-table-fork")))
        << head_->texts().join(QStringLiteral(" | ")).toStdString();
    EXPECT_TRUE(head_->sees_no_alert(QStringLiteral("Record forked")));
    ASSERT_TRUE(comes([&] {
        return hand_->text(QStringLiteral("noticeText")).contains("entered again, by hand");
    })) << hand_->text(QStringLiteral("noticeText")).toStdString();
    hand_->picture(QStringLiteral("spare-table-fork-told"));
}

TEST_F(SpareTable, WhoseMatchTheDeskMovesSaysSoAndGoesToTheNextOneOfItsCourt) {
    open_screen(lost_folder_);
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("wonLeft")); }));
    ASSERT_EQ(screen_->match().sheet().match_id, id_);
    EXPECT_FALSE(hand_->shows(QStringLiteral("goToNext")));
    const std::string next = another_match();
    ASSERT_FALSE(next.empty());
    put_on_court(wire::Uuid::from_text(id_)->to_bytes(), court + 1);
    ASSERT_TRUE(comes([&] {
        return hand_->text(QStringLiteral("noticeText")).contains(QStringLiteral("court 2"));
    })) << hand_->text(QStringLiteral("noticeText")).toStdString();
    EXPECT_TRUE(hand_->shows(QStringLiteral("wonLeft"))) << "nothing is torn from a person's hand";
    put_on_court(next, court);
    ASSERT_TRUE(comes([&] { return hand_->shows(QStringLiteral("goToNext")); }));
    hand_->picture(QStringLiteral("moved-table"));
    ASSERT_TRUE(hand_->touch(QStringLiteral("goToNext")));
    ASSERT_TRUE(comes([&] { return screen_->match().sheet().match_id != id_; }));
    EXPECT_EQ(screen_->match().sheet().court, court);
    EXPECT_FALSE(screen_->match().sync_status().practice);
}

}  // namespace
}  // namespace courthand::client::test
