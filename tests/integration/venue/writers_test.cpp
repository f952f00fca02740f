// Who writes a match: how a device came to it is kept, and those who ask for it in turn.
#include <gtest/gtest.h>

#include <chrono>
#include <future>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/store/postgres/database.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

using Granted = v1::GrantWriterResponse;

class Writers : public ::testing::Test {
  protected:
    Granted grant(Device& device, bool take_over = false) {
        v1::GrantWriterRequest request;
        request.set_match_id(record.match().to_bytes());
        request.set_take_over(take_over);
        Granted response;
        const auto status = call(*device.sync, &v1::Sync::Stub::GrantWriter, request, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return response;
    }
    void begin() {
        record.add_rallies(1);
        const v1::Match opened = test_match(record.match(), 1);
        push_all(table, record, &opened);
    }
    std::string rows_of(const std::string& act) {
        return database.run("select count(*) from audit where act = '" + act + "'");
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device table = Device::at(server, auth::Seat::table, 1);
    TestRecord record{new_match_id(), table.enrolled.id};
};

TEST_F(Writers, OneThatNobodyGrantedIsInTheAudit) {
    begin();
    ASSERT_EQ(rows_of("begin-writing"), "1");
    const auto column = [&](const std::string& name) {
        return database.run("select " + name + " from audit where act = 'begin-writing'");
    };
    EXPECT_EQ(column("device_id"), to_text(table.enrolled.id));
    EXPECT_EQ(column("seat"), "table");
    EXPECT_EQ(column("court"), "1");
    EXPECT_EQ(column("subject"), record.match().to_text());
    EXPECT_EQ(column("detail"), "epoch 1, from entry 1: sent the first entry");
    EXPECT_EQ(column("refused"), "f");
    record.add_rallies(1);
    push_all(table, record);
    EXPECT_EQ(rows_of("begin-writing"), "1");
}

TEST_F(Writers, OneWhoseGrantWasLostIsInTheAudit) {
    begin();
    // The database is as it was before the table was granted its third epoch.
    record.go_on_as(table.enrolled.id, 3);
    record.add_rallies(1);
    push_all(table, record);
    EXPECT_EQ(database.run("select epoch from match"), "3");
    EXPECT_EQ(rows_of("begin-writing"), "2");
    EXPECT_EQ(database.run("select detail from audit where act = 'begin-writing' "
                           "order by number desc limit 1"),
              "epoch 3, from entry 3: went on where the record ends, in an epoch whose grant is "
              "lost");
}

TEST_F(Writers, OneThatCannotBeInTheAuditDoesNotBegin) {
    database.run("alter table audit add constraint closed check (false) not valid");
    record.add_rallies(1);
    v1::PushRequest request;
    request.set_match_id(record.match().to_bytes());
    for (const std::string& bytes : record.bytes()) request.add_entries()->set_data(bytes);
    *request.mutable_opened_here() = test_match(record.match(), 1);
    v1::PushResponse response;
    EXPECT_FALSE(call(*table.sync, &v1::Sync::Stub::Push, request, response).ok());
    EXPECT_EQ(database.run("select count(*) from entry"), "0");
    database.run("alter table audit drop constraint closed");
    push_all(table, record);
}

/// Waits until somebody waits for a row that another transaction holds.
void wait_for_a_waiter(const TestDatabase& database) {
    const std::string waiters =
        "select count(*) > 0 from pg_stat_activity "
        "where datname = current_database() and wait_event_type = 'Lock'";
    ASSERT_TRUE(testkit::eventually([&] { return database.run(waiters) == "t"; }));
}

// After a restore a table that knows the end of the record went on with it, and nobody was told.
TEST_F(Writers, OneWhoseGrantWasLostIsToldToTheHeadOfficial) {
    begin();
    Device head = Device::at(server, auth::Seat::head);
    BoardWatch board{head};
    const auto shown = [](v1::AlertState state) {
        return [=](const BoardWatch& watch) {
            const v1::Alert* alert = watch.alert("writer-recovered");
            return alert != nullptr && alert->state() == state;
        };
    };
    record.go_on_as(table.enrolled.id, 3);
    record.add_rallies(1);
    push_all(table, record);
    ASSERT_TRUE(board.until(shown(v1::ALERT_STATE_OPEN)));
    EXPECT_EQ(board.alert("writer-recovered")->court(), 1U);
    server.kill9();
    server.start_again();
    Device again{server, head.enrolled};
    BoardWatch after{again};
    ASSERT_TRUE(after.until(shown(v1::ALERT_STATE_OPEN))) << "until somebody has seen it";
    v1::AcknowledgeRequest seen;
    seen.set_alert_id(after.alert("writer-recovered")->alert_id());
    seen.set_by("Head official");
    v1::AcknowledgeResponse response;
    ASSERT_TRUE(call(*again.venue, &v1::Venue::Stub::Acknowledge, seen, response).ok());
    EXPECT_TRUE(after.until(shown(v1::ALERT_STATE_CLEARED)));
}

// An entry that came between the look at the match and its grant made a new grant of an old one.
TEST_F(Writers, AnEntryMeanwhileMakesNoNewGrant) {
    begin();
    std::future<Granted> granted;
    const auto held = postgres::Database{database.dsn()}.run("hold", [&](pqxx::work& work) {
        work.exec("select 1 from tournament for no key update");
        granted = std::async(std::launch::async, [&] { return grant(table); });
        wait_for_a_waiter(database);
        work.exec("update match set last_number = last_number + 1");
    });
    ASSERT_TRUE(held.ok()) << held.text();
    EXPECT_EQ(granted.get().outcome(), Granted::OUTCOME_ALREADY_YOURS);
    EXPECT_EQ(rows_of("grant"), "0");
}

// Each wish took the place of the other: a row of the feed and one of the audit for every call, and
// the head official's answer always came too late.
TEST_F(Writers, TwoThatAskInTurnWriteNoMoreThanOne) {
    begin();
    Device one = Device::at(server, auth::Seat::table, 1);
    Device two = Device::at(server, auth::Seat::table, 1);
    ASSERT_EQ(grant(one, true).outcome(), Granted::OUTCOME_ASKED);
    const std::string before = database.run("select feed_head from tournament");
    for (int i = 0; i < 10; ++i) {
        const Granted second = grant(two, true);
        EXPECT_EQ(second.outcome(), Granted::OUTCOME_HELD_BY_OTHER);
        EXPECT_NE(second.message().find("another device asks"), std::string::npos)
            << second.message();
        EXPECT_EQ(grant(one, true).outcome(), Granted::OUTCOME_ASKED);
    }
    EXPECT_EQ(database.run("select feed_head from tournament"), before);
    EXPECT_EQ(rows_of("ask-take-over"), "1");
    EXPECT_EQ(database.run("select asked_by from match"), to_text(one.enrolled.id));
    // A wish that nobody answers does not stand in the way for ever.
    database.run("update match set asked_at = asked_at - interval '61 seconds'");
    EXPECT_EQ(grant(two, true).outcome(), Granted::OUTCOME_ASKED);
    EXPECT_EQ(database.run("select asked_by from match"), to_text(two.enrolled.id));
    EXPECT_EQ(rows_of("ask-take-over"), "2");
}

}  // namespace
}  // namespace courthand::server::testing
