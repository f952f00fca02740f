// Two devices have written one match: people look at both records and choose, once; the court hears
// of it, and no record is changed by it.
#include <gtest/gtest.h>

#include <grpcpp/grpcpp.h>

#include <chrono>

#include "device_kit.h"
#include "server/service/fork_calls.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/ready_match.h"

namespace courthand::server::testing {
namespace {

constexpr std::uint32_t common_entries = 9;

class Fork : public ::testing::Test {
  protected:
    /// The spare table has taken the match over and goes on; then the lost one sends its own.
    void SetUp() override {
        lost = std::make_unique<TestRecord>(record_of(ready_to_serve, match, table.enrolled.id));
        push_all(table, *lost, &opened);
        ASSERT_EQ(lost->bytes().size(), common_entries);
        let_the_spare_go_on();
    }
    void let_the_spare_go_on() {
        postgres::Database connections{database.dsn()};
        postgres::PgMatchStore store{connections};
        const MatchKey key{(*store.tournaments())[0].id,
                           MatchId{*uuid_from_bytes(match.to_bytes())}};
        ASSERT_TRUE(store.ask_take_over(key, spare.enrolled.id).ok());
        ASSERT_TRUE(store.answer_take_over(key, spare.enrolled.id, true, "lost").ok());
    }
    /// What the lost device sends from now on, one entry a push.
    void send_of_the_lost(const std::string& more) {
        const std::size_t before = lost->bytes().size();
        go_on(*lost, ready_to_serve + more);
        v1::PushRequest late;
        late.set_match_id(match.to_bytes());
        for (std::size_t i = before; i < lost->bytes().size(); ++i)
            late.add_entries()->set_data(lost->bytes()[i]);
        v1::PushResponse pushed;
        ASSERT_TRUE(call(*table.sync, &v1::Sync::Stub::Push, late, pushed).ok());
        for (const v1::PushResult& result : pushed.results())
            ASSERT_EQ(result.outcome(), v1::PushResult::OUTCOME_STORED_ON_BRANCH);
    }
    /// The alert of the fork, as the board has it.
    std::string forked() {
        BoardWatch board{head};
        const auto open = [](const BoardWatch& watch) {
            const v1::Alert* alert = watch.alert("record-forked");
            return alert && alert->state() == v1::ALERT_STATE_OPEN;
        };
        EXPECT_TRUE(board.until(open));
        const v1::Alert* alert = board.alert("record-forked");
        return alert == nullptr ? std::string{} : alert->alert_id();
    }
    v1::ShowForkResponse look(Device& who, const std::string& alert) {
        v1::ShowForkRequest request;
        request.set_alert_id(alert);
        v1::ShowForkResponse both;
        const auto status = call(*who.venue, &v1::Venue::Stub::ShowFork, request, both);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return both;
    }
    static v1::SettleForkRequest wish(const std::string& alert, v1::ForkChoice choice) {
        v1::SettleForkRequest request;
        request.set_alert_id(alert);
        request.set_choice(choice);
        request.set_note("as the referees say");
        request.set_by("head official");
        return request;
    }
    grpc::Status settle(Device& who, const v1::SettleForkRequest& request) {
        return call(*who.venue, &v1::Venue::Stub::SettleFork, request, settled);
    }
    /// As the desk has it.
    std::string name_of(const Device& device) {
        return database.run("select name from device where device_id = '" +
                            to_text(device.enrolled.id) + "'");
    }
    std::string kept() {
        return database.run("select md5(string_agg(bytes::text, ',' order by number)) from entry") +
               " " +
               database.run("select md5(string_agg(bytes::text, ',' order by number)) from branch");
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device table = Device::at(server, auth::Seat::table, 1);
    Device spare = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    Device desk = Device::at(server, auth::Seat::desk);
    wire::Uuid match = new_match_id();
    v1::Match opened = test_match(match, 1);
    std::unique_ptr<TestRecord> lost;
    v1::SettleForkResponse settled;
};

v1::Entry entry_in(const v1::ForkEntry& line) {
    v1::Entry entry;
    EXPECT_TRUE(entry.ParseFromString(line.entry().data()));
    return entry;
}

TEST_F(Fork, BothSidesAreShownFromWhereTheyPartWithDeviceAndTimes) {
    send_of_the_lost("serve\nrally A\nserve\n");
    const std::string alert = forked();
    for (Device* who : {&head, &desk}) {
        const v1::ShowForkResponse both = look(*who, alert);
        EXPECT_EQ(both.first_seq(), common_entries + 1);
        EXPECT_EQ(both.record_size(), 0) << "the spare one has recorded nothing yet";
        ASSERT_EQ(both.branch_size(), 3);
        EXPECT_EQ(both.record_more() + both.branch_more(), 0U);
        for (int i = 0; i < both.branch_size(); ++i) {
            EXPECT_EQ(entry_in(both.branch(i)).seq(),
                      common_entries + 1 + static_cast<std::uint32_t>(i));
            EXPECT_EQ(entry_in(both.branch(i)).device_id(), to_bytes(table.enrolled.id.value));
            EXPECT_EQ(both.branch(i).device_name(), name_of(table));
            EXPECT_GT(both.branch(i).stored_us(), 0);
        }
    }
}

TEST_F(Fork, MoreThanAPersonCanCompareIsCounted) {
    std::string rallies;
    for (std::size_t i = 0; i < service::ForkCalls::most_shown; ++i) rallies += "serve\nreplay\n";
    send_of_the_lost(rallies);
    const v1::ShowForkResponse both = look(head, forked());
    EXPECT_EQ(both.branch_size(), static_cast<int>(service::ForkCalls::most_shown));
    EXPECT_EQ(both.branch_more(), service::ForkCalls::most_shown);
}

TEST_F(Fork, OneActSettlesItTellsTheCourtAndChangesNoRecord) {
    send_of_the_lost("serve\nrally A\n");
    const std::string alert = forked();
    const std::string before = kept();
    grpc::ClientContext context;
    prepare(context);
    v1::WatchRequest watch;
    watch.set_match_id(match.to_bytes());
    const auto reader = spare.sync->Watch(&context, watch);
    v1::WatchResponse news;
    ASSERT_TRUE(reader->Read(&news)) << "the table follows its match";

    const auto status = settle(desk, wish(alert, v1::FORK_CHOICE_ENTER_AGAIN));
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(settled.alert().state(), v1::ALERT_STATE_RULED);
    EXPECT_TRUE(settled.alert().accepted());
    EXPECT_EQ(settled.alert().note(),
              "entries 10 to 11 of " + name_of(table) + ": as the referees say");

    bool told = false;
    while (!told && reader->Read(&news)) told = news.has_ruling();
    context.TryCancel();
    ASSERT_TRUE(told) << "the court was not told";
    EXPECT_EQ(news.ruling().reason(), "record-forked");
    EXPECT_TRUE(news.ruling().accepted());
    EXPECT_EQ(news.ruling().note(), settled.alert().note());

    EXPECT_EQ(kept(), before) << "a person enters, nothing is rewritten";
    EXPECT_EQ(settle(head, wish(alert, v1::FORK_CHOICE_RECORD_STANDS)).error_code(),
              grpc::StatusCode::FAILED_PRECONDITION)
        << "it is settled once";
    EXPECT_EQ(look(head, alert).branch_size(), 2) << "and may be looked at later";
    EXPECT_EQ(database.run("select act || ' ' || detail from audit where act = 'settle-fork' and "
                           "not refused"),
              "settle-fork to be entered again, head official: as the referees say");
}

TEST_F(Fork, WhatIsNoDecisionAboutAForkIsRefusedWithTheCure) {
    send_of_the_lost("serve\n");
    const std::string alert = forked();
    EXPECT_EQ(settle(head, wish(alert, v1::FORK_CHOICE_UNSPECIFIED)).error_code(),
              grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_EQ(settle(head, wish("no/such/alert", v1::FORK_CHOICE_RECORD_STANDS)).error_code(),
              grpc::StatusCode::NOT_FOUND);
    auto endless = wish(alert, v1::FORK_CHOICE_RECORD_STANDS);
    endless.set_note(std::string(service::ForkCalls::longest_note + 1, 'x'));
    EXPECT_EQ(settle(head, endless).error_code(), grpc::StatusCode::INVALID_ARGUMENT);

    v1::RuleRequest ruling;
    ruling.set_alert_id(alert);
    ruling.set_decision(v1::DECISION_ACCEPT);
    ruling.set_by("head official");
    v1::RuleResponse response;
    const auto status = call(*head.venue, &v1::Venue::Stub::Rule, ruling, response);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::FAILED_PRECONDITION);
    EXPECT_NE(status.error_message().find("look at both"), std::string::npos);
}

}  // namespace
}  // namespace courthand::server::testing
