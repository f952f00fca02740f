// An event of the largest size: a thousand courts planned at the desk, all of them on one board.
#include <gtest/gtest.h>

#include <grpcpp/grpcpp.h>

#include <cstdint>

#include "device_kit.h"
#include "wire/message_limits.h"

namespace courthand::server::testing {
namespace {

constexpr const char* two_teams =
    "team;number;captain;libero\n"
    "Quayside;1;x;\nQuayside;2;;\nSaltmarsh;3;x;\nSaltmarsh;4;;\n";

class CourtsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        v1::ImportRosterRequest request;
        request.set_csv(two_teams);
        ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::ImportRoster, request, teams).ok());
        ASSERT_TRUE(teams.kept());
    }
    grpc::Status plan(std::uint32_t court) {
        v1::CreateMatchRequest request;
        request.set_match_id(new_match_id().to_bytes());
        request.set_first_team_id(teams.teams(0).team_id());
        request.set_second_team_id(teams.teams(1).team_id());
        request.set_court(court);
        request.set_profile_id("international-2025");
        v1::CreateMatchResponse response;
        return call(*desk.desk, &v1::Desk::Stub::CreateMatch, request, response);
    }
    int courts_of_desk() {
        v1::ListCourtsResponse response;
        const auto status =
            call(*desk.desk, &v1::Desk::Stub::ListCourts, v1::ListCourtsRequest{}, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return response.courts_size();
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device desk = Device::at(server, auth::Seat::desk);
    v1::ImportRosterResponse teams;
};

TEST_F(CourtsTest, AThousandCourtsAreConfiguredAndOneBoardShowsThemAll) {
    for (std::uint32_t court = 1; court <= wire::most_courts; ++court) {
        const auto status = plan(court);
        ASSERT_TRUE(status.ok()) << "court " << court << ": " << status.error_message();
    }
    EXPECT_EQ(courts_of_desk(), static_cast<int>(wire::most_courts));

    Device head = Device::at(server, auth::Seat::head);
    BoardWatch board{head};
    ASSERT_TRUE(board.until([](const BoardWatch& watch) {
        return watch.cards.size() == wire::most_courts &&
               !watch.card(wire::most_courts)->match_id().empty();
    })) << board.finish().error_message();
    EXPECT_EQ(board.card(wire::most_courts)->a().name(), "Quayside");

    Device table = Device::at(server, auth::Seat::table, wire::most_courts);
    v1::FetchMatchRequest fetch;
    fetch.set_court(wire::most_courts);
    v1::FetchMatchResponse fetched;
    const auto status = call(*table.sync, &v1::Sync::Stub::FetchMatch, fetch, fetched);
    ASSERT_TRUE(status.ok()) << status.error_message();
    TestRecord record{*wire::Uuid::from_bytes(fetched.match().match_id()), table.enrolled.id};
    record.add_rallies(2);
    push_all(table, record);
    EXPECT_TRUE(board.until([&](const BoardWatch& watch) {
        return watch.card(wire::most_courts)->head_seq() == record.size();
    })) << "what is recorded on the last court reaches the board";
    EXPECT_EQ(board.cards.size(), wire::most_courts);
}

TEST_F(CourtsTest, ACourtBeyondTheLimitIsRefusedWithTheCure) {
    const auto status = plan(wire::most_courts + 1);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(status.error_message().find("courts are numbered 1 to 1000"), std::string::npos)
        << status.error_message();
    EXPECT_EQ(courts_of_desk(), 0);
}

}  // namespace
}  // namespace courthand::server::testing
