// A wait for the database ends at the limit, whether or not the database can be asked to give up.
#include <gtest/gtest.h>

#include <atomic>
#include <string>
#include <system_error>
#include <thread>

#include "server/store/postgres/database.h"
#include "server/store/postgres/wait_limit.h"
#include "server/testing/forwarder.h"
#include "server/testing/test_database.h"

namespace courthand::server::testing {
namespace {

constexpr postgres::PoolLimits short_limit{1, std::chrono::milliseconds{5000},
                                           std::chrono::milliseconds{200}};

Status run(postgres::Database& database, const std::string& sql) {
    return database.run_alone("a test", [&](pqxx::nontransaction& session) { session.exec(sql); });
}

TEST(WaitLimits, AStatementIsGivenUpAndTheNextOneHasAConnectionOfItsOwn) {
    const TestDatabase own;
    postgres::Database database{own.dsn(), short_limit};
    EXPECT_EQ(run(database, "select pg_sleep(3600)").code, StatusCode::in_doubt);
    EXPECT_TRUE(run(database, "select 1").ok());
    EXPECT_EQ(own.run("select count(*) from pg_stat_activity where query like '%pg_sleep(3600)%' "
                      "and state = 'active' and pid <> pg_backend_pid()"),
              "0")
        << "the database was asked to give up, not left alone with it";
}

TEST(WaitLimits, ADatabaseThatDoesNotAnswerAtAllIsCutOff) {
    const TestDatabase own;
    std::atomic<bool> stands_still = false;
    const auto port = static_cast<std::uint16_t>(std::stoi(own.run("select inet_server_port()")));
    const Forwarder forwarder{"127.0.0.1", port, [&] {
                                  stands_still.wait(true);
                                  return true;
                              }};
    const std::string address = forwarder.address();
    const std::string joint = own.dsn().find('?') == std::string::npos ? "?" : "&";
    postgres::Database database{
        own.dsn() + joint + "host=127.0.0.1&port=" + address.substr(address.rfind(':') + 1),
        short_limit};
    ASSERT_TRUE(run(database, "select 1").ok());
    stands_still = true;
    EXPECT_EQ(run(database, "select 1").code, StatusCode::in_doubt);
    EXPECT_EQ(database.run("a test", [](pqxx::work&) {}).code, StatusCode::unavailable)
        << "and none other is to be had";
    stands_still = false;
    stands_still.notify_all();
    EXPECT_TRUE(run(database, "select 1").ok());
}

// The wait was in the list already, and its watch did not know whether it was.
TEST(WaitLimits, WithoutAThreadToEndItNoWaitBeginsAndTheNextOneTriesAgain) {
    std::atomic<int> starts = 0;
    postgres::WaitLimit limit{std::chrono::hours{1}, [&](std::function<void()> body) {
                                  if (starts++ == 0)
                                      throw std::system_error{std::make_error_code(
                                          std::errc::resource_unavailable_try_again)};
                                  return std::thread{std::move(body)};
                              }};
    {
        postgres::WaitLimit::Watch watch{limit};
        EXPECT_THROW(watch.begin(nullptr), std::system_error);
        EXPECT_FALSE(watch.end());
    }
    postgres::WaitLimit::Watch watch{limit};
    watch.begin(nullptr);
    EXPECT_FALSE(watch.end());
    EXPECT_EQ(starts, 2);
}

TEST(WaitLimits, AThreadThatIsNotToBeHadPassesByItself) {
    try {
        throw std::system_error{std::make_error_code(std::errc::resource_unavailable_try_again)};
    } catch (...) {
        const Status status = postgres::status_of_current_exception("keep it");
        EXPECT_EQ(status.code, StatusCode::exhausted) << status.text();
        EXPECT_TRUE(status.definite()) << "nothing was asked to be kept";
    }
}

}  // namespace
}  // namespace courthand::server::testing
