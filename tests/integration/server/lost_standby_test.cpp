// A synchronous standby that is lost holds up every commit of PostgreSQL for ever. Nobody here
// waits that long: not the tables, not the desk, not who asks how the server is, nor who stops it.
#include <grpcpp/generic/generic_stub.h>
#include <gtest/gtest.h>

#include <chrono>
#include <future>
#include <string>

#include "server/testing/server_process.h"
#include "standby_cluster.h"
#include "test_client.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

class LostStandby : public ::testing::Test {
  protected:
    LostStandby() {
        record_.add_rallies(500);
        const v1::Match match = test_match(record_.match());
        EXPECT_TRUE(table_.push(record_, 1, kept_, &match).status.ok());
    }
    /// Loses the standby and pushes until it is felt: PostgreSQL takes a moment to see it. Answers
    /// what was told of the entry after `kept_`.
    grpc::Status push_until_it_is_felt() {
        cluster_.lose_standby();
        while (kept_ < record_.size()) {
            const grpc::Status status = table_.push(record_, kept_ + 1, kept_ + 1).status;
            if (!status.ok()) return status;
            ++kept_;
        }
        return grpc::Status::OK;
    }
    /// The answer of the health service, as bytes.
    std::string health() {
        grpc::GenericStub stub{table_.channel()};
        grpc::ClientContext context;
        context.set_deadline(std::chrono::system_clock::now() + TestClient::patience);
        const grpc::Slice nothing{""};
        const grpc::ByteBuffer request{&nothing, 1};
        grpc::ByteBuffer response;
        std::promise<grpc::Status> done;
        stub.UnaryCall(&context, "/grpc.health.v1.Health/Check", grpc::StubOptions{}, &request,
                       &response, [&](grpc::Status status) { done.set_value(std::move(status)); });
        grpc::Slice bytes;
        if (!done.get_future().get().ok() || !response.DumpToSingleSlice(&bytes).ok()) return {};
        return {reinterpret_cast<const char*>(bytes.begin()), bytes.size()};
    }
    ::testing::AssertionResult becomes(const std::string& wanted) {
        return testkit::eventually([&] { return health() == wanted; }, TestClient::patience);
    }

    static inline const std::string serving{"\x08\x01", 2};
    static inline const std::string not_serving{"\x08\x02", 2};
    StandbyCluster cluster_;
    ServerProcess server_{{cluster_.dsn(), {}, 0, {}}};
    TestClient table_{server_.address(),
                      enrol_device(cluster_.dsn(), server_.data(), auth::Seat::table, 1)};
    TestClient spare_{server_.address(),
                      enrol_device(cluster_.dsn(), server_.data(), auth::Seat::table, 1)};
    TestRecord record_{new_match_id(), table_.device().id};
    std::uint32_t kept_ = 2;
};

TEST_F(LostStandby, PushAndGrantAreAnsweredHealthSaysSoAndNothingIsLost) {
    ASSERT_EQ(health(), serving);
    const grpc::Status told = push_until_it_is_felt();
    EXPECT_EQ(told.error_code(), grpc::StatusCode::UNAVAILABLE) << told.error_message();
    EXPECT_NE(told.error_message().find("standby"), std::string::npos) << told.error_message();
    EXPECT_TRUE(becomes(not_serving)) << server_.log();
    server_.wait_for_log("event=append-waits");
    // A push again: what the database has by itself alone is not confirmed either.
    EXPECT_EQ(table_.push(record_, kept_ + 1, kept_ + 1).status.error_code(),
              grpc::StatusCode::UNAVAILABLE);
    // The lane of the desk's acts: a grant that changes something.
    EXPECT_EQ(spare_.grant(record_.match(), true).status.error_code(),
              grpc::StatusCode::UNAVAILABLE);

    // One more that asks only for the head: it would take it for kept.
    EXPECT_EQ(table_.push_bytes(record_.match(), {}).status.error_code(),
              grpc::StatusCode::UNAVAILABLE);

    cluster_.give_up_standby();
    // It finds out by itself: nobody pushes.
    EXPECT_TRUE(becomes(serving)) << server_.log();
    const auto again = table_.push_until_answered(record_, kept_ + 1, kept_ + 2);
    ASSERT_TRUE(again.status.ok()) << again.status.error_message();
    EXPECT_EQ(again.response.head_seq(), kept_ + 2);
    EXPECT_EQ(table_.fetch_record(record_.match()).size(), kept_ + 2);
}

TEST_F(LostStandby, TheServerStopsWhenAsked) {
    ASSERT_FALSE(push_until_it_is_felt().ok());
    auto pushing = std::async(std::launch::async,
                              [this] { return table_.push(record_, kept_ + 1, kept_ + 1); });
    server_.wait_for_log("event=append-waits");
    // The one that is being kept meanwhile ends in time, too. A part that stops waits for its own
    // last write: together they stay far below the time after which a service is killed.
    const auto began = std::chrono::steady_clock::now();
    EXPECT_EQ(server_.stop(), 0);
    EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds{20});
    EXPECT_FALSE(pushing.get().status.ok());
}

}  // namespace
}  // namespace courthand::server::testing
