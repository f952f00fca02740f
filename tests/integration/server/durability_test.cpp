// Nothing that was acknowledged is lost, whatever dies: the server at any step, or the database.
#include <gtest/gtest.h>

#include <thread>

#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "test_client.h"

namespace courthand::server::testing {
namespace {

TEST(Durability, KillingTheServerBetweenAnyTwoStepsLosesNothingAcknowledged) {
    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    TestClient table{server.address(),
                     enrol_device(database.dsn(), server.data(), auth::Seat::table, 1)};
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(6);
    const v1::Match match = test_match(record.match());
    const auto restart = [&] {
        server.kill9();
        server.start_again();
    };
    const auto check = [&](std::uint32_t acknowledged) {
        const auto fetched = table.fetch_record(record.match());
        ASSERT_GE(fetched.size(), acknowledged);
        for (std::uint32_t n = 0; n < acknowledged; ++n) ASSERT_EQ(fetched[n], record.bytes()[n]);
    };
    // Step 1: the match is made known. Steps 2 …: one entry each.
    ASSERT_TRUE(table.push_until_answered(record, 1, 0, &match).status.ok());
    restart();
    for (std::uint32_t n = 1; n <= record.size(); ++n) {
        const auto pushed = table.push_until_answered(record, n, n, &match);
        ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
        ASSERT_EQ(pushed.response.results(0).outcome(), v1::PushResult::OUTCOME_APPENDED);
        restart();
        check(n);
    }
}

TEST(Durability, KillingTheServerWhileItAppendsLeavesEachEntryExactlyOnce) {
    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    TestClient table{server.address(),
                     enrol_device(database.dsn(), server.data(), auth::Seat::table, 1)};
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(400);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push_until_answered(record, 1, 0, &match).status.ok());
    constexpr std::uint32_t batch = 20;
    constexpr int kills = 8;
    // Joined also when a push fails the test.
    std::jthread killer{[&] {
        for (int i = 0; i < kills; ++i) {
            // Different moments of a push; which one is hit does not matter.
            std::this_thread::sleep_for(std::chrono::milliseconds{20 + 7 * i});
            server.kill9();
            server.start_again();
        }
    }};
    for (std::uint32_t n = 1; n <= record.size(); n += batch) {
        const auto pushed =
            table.push_until_answered(record, n, std::min(n + batch - 1, record.size()), &match);
        ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
        for (const auto& result : pushed.response.results())
            ASSERT_TRUE(result.outcome() == v1::PushResult::OUTCOME_APPENDED ||
                        result.outcome() == v1::PushResult::OUTCOME_ALREADY_HAD)
                << result.outcome() << ' ' << result.message();
    }
    killer.join();
    EXPECT_EQ(table.fetch_record(record.match()), record.bytes());
    EXPECT_EQ(database.run("select count(*) from branch"), "0");
    EXPECT_EQ(database.run("select count(*) - max(position) from (select position from entry "
                           "union all select position from branch "
                           "union all select position from feed) every"),
              "0");
}

TEST(Durability, ADatabaseThatIsKilledAndComesBackIsFoundAgain) {
    PrivateCluster cluster;
    cluster.start();
    ServerProcess server{{cluster.dsn(), {}, 0, {}}};
    TestClient table{server.address(),
                     enrol_device(cluster.dsn(), server.data(), auth::Seat::table, 1)};
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(3);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 2, &match).status.ok());
    TestWatch watch{table, watch_match(record.match())};
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.snapshot_complete; }));

    cluster.kill9();
    const auto refused = table.push(record, 3, 4);
    EXPECT_EQ(refused.status.error_code(), grpc::StatusCode::UNAVAILABLE);
    EXPECT_NE(refused.status.error_message().find("database"), std::string::npos)
        << refused.status.error_message();
    server.wait_for_log("event=database-away");

    cluster.start();
    const auto pushed = table.push_until_answered(record, 3, 6);
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(pushed.response.head_seq(), 6u);
    // The watch that was open all the time goes on.
    ASSERT_TRUE(watch.read_until([](const TestWatch& w) { return w.entries.size() == 6; }));
    EXPECT_EQ(watch.entries, record.bytes());
    server.wait_for_log("event=database-back");
}

TEST(Durability, AServerWithoutADatabaseWaitsSaysSoAndStartsOnceItIsThere) {
    PrivateCluster cluster;
    cluster.start();
    const std::string dsn = cluster.dsn();
    cluster.kill9();
    ServerProcess server{{dsn, {}, 0, {}}, ServerProcess::DoNotWait{}};
    server.wait_for_log("event=waiting-for-database");
    cluster.start();
    server.wait_until_ready();
    TestClient table{server.address(), enrol_device(dsn, server.data(), auth::Seat::table, 1)};
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    EXPECT_TRUE(table.push(record, 1, 2, &match).status.ok());
}

TEST(Durability, AServerThatWaitsForItsDatabaseStopsWhenAsked) {
    const std::string nobody =
        "postgresql://courthand@127.0.0.1:" + std::to_string(free_port()) + "/courthand";
    ServerProcess server{{nobody, {}, 0, {}}, ServerProcess::DoNotWait{}};
    server.wait_for_log("event=waiting-for-database");
    EXPECT_EQ(server.stop(), 0);
}

TEST(Durability, ADatabaseOfANewerProgramStopsTheServer) {
    TestDatabase database;
    {
        ServerProcess server{{database.dsn(), {}, 0, {}}};
        EXPECT_EQ(server.stop(), 0);
    }
    database.run("insert into schema_version (number, name) values (9999, 'of tomorrow')");
    ServerProcess server{{database.dsn(), {}, 0, {}}, ServerProcess::DoNotWait{}};
    EXPECT_EQ(server.wait_for_end(), 3);
    EXPECT_NE(server.log().find("newer"), std::string::npos) << server.log();
}

}  // namespace
}  // namespace courthand::server::testing
