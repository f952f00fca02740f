// Entries that a server could not take: what the desk is told of them, for how long and with which
// cause.
#include <gtest/gtest.h>

#include <chrono>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

constexpr const char* refused = "entries-refused";

class RefusedEntries : public ::testing::Test {
  protected:
    /// What becomes of the last entry.
    v1::PushResult push(Device& device, const wire::Uuid& match,
                        const std::vector<std::string>& entries,
                        const v1::Match* opened_here = nullptr) {
        v1::PushRequest request;
        request.set_match_id(match.to_bytes());
        for (const std::string& bytes : entries) request.add_entries()->set_data(bytes);
        if (opened_here) *request.mutable_opened_here() = *opened_here;
        v1::PushResponse response;
        const auto status = call(*device.sync, &v1::Sync::Stub::Push, request, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return response.results().empty() ? v1::PushResult{} : *response.results().rbegin();
    }
    /// The servers share in steps: waits until the database answers this; true when it does.
    ::testing::AssertionResult is_told(const std::string& query, const std::string& answer) {
        return testkit::eventually([&] { return database.run(query) == answer; });
    }
    ::testing::AssertionResult comes_to(const std::string& rows) {
        return is_told("select count(*) from refused_entry", rows);
    }
    static auto has(v1::AlertState state, const std::string& words) {
        return [=](const BoardWatch& watch) {
            const v1::Alert* alert = watch.alert(refused);
            return alert && alert->state() == state &&
                   alert->text().find(words) != std::string::npos;
        };
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device table = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    Device desk = Device::at(server, auth::Seat::desk);
};

/// The same id, number and place as the entry, with another content.
std::string with_other_content(const std::string& bytes) {
    v1::Entry entry = *wire::parse_entry(bytes);
    entry.set_device_time_us(entry.device_time_us() + 1);
    return entry.SerializeAsString();
}

// Its match, number and device are those of an entry of the record, so it was taken for that one.
TEST_F(RefusedEntries, AnIdThatWasUsedForAnotherContentStandsAtTheDesk) {
    TestRecord record{new_match_id(), table.enrolled.id};
    record.add_rallies(1);
    const v1::Match opened = test_match(record.match(), 1);
    push_all(table, record, &opened);
    BoardWatch board{head};
    ASSERT_TRUE(board.read());
    const auto result = push(table, record.match(), {with_other_content(record.bytes().back())});
    ASSERT_EQ(result.cause(), v1::PushResult::CAUSE_ID_USED) << result.message();
    EXPECT_TRUE(board.until(has(v1::ALERT_STATE_OPEN, "its id was used before")));
    EXPECT_TRUE(comes_to("1"));
    EXPECT_EQ(database.run("select number from refused_entry"), "2");
    // Once the device sends what stands in the record, nothing is refused any more.
    (void)push(table, record.match(), {record.bytes().back()});
    EXPECT_TRUE(board.until(has(v1::ALERT_STATE_CLEARED, "")));
    EXPECT_TRUE(comes_to("0"));
}

TEST_F(RefusedEntries, AnotherCauseIsShownAndTheTimeStays) {
    TestRecord record{new_match_id(), table.enrolled.id};
    record.add_rallies(1);
    BoardWatch board{head};
    ASSERT_EQ(push(table, record.match(), record.bytes()).cause(),
              v1::PushResult::CAUSE_UNKNOWN_MATCH);
    ASSERT_TRUE(board.until(has(v1::ALERT_STATE_OPEN, "the match is not known here")));
    ASSERT_TRUE(comes_to("1"));
    const std::string since = database.run("select since from refused_entry");
    Device elsewhere = Device::at(server, auth::Seat::table, 2);
    const v1::Match opened = test_match(record.match(), 2);
    (void)push(elsewhere, record.match(), {}, &opened);
    ASSERT_EQ(push(table, record.match(), record.bytes()).cause(),
              v1::PushResult::CAUSE_OTHER_COURT);
    EXPECT_TRUE(board.until(has(v1::ALERT_STATE_OPEN, "enrolled for another court")));
    EXPECT_TRUE(is_told("select cause from refused_entry",
                        std::to_string(v1::PushResult::CAUSE_OTHER_COURT)));
    EXPECT_TRUE(comes_to("1"));
    EXPECT_EQ(database.run("select since from refused_entry"), since);
}

// Nobody could make such an alert go: the device may not speak any more.
TEST_F(RefusedEntries, OfAWithdrawnDeviceGoWithItAndTheAuditSaysSo) {
    TestRecord record{new_match_id(), table.enrolled.id};
    record.add_rallies(1);
    BoardWatch board{head};
    ASSERT_EQ(push(table, record.match(), record.bytes()).cause(),
              v1::PushResult::CAUSE_UNKNOWN_MATCH);
    ASSERT_TRUE(board.until(has(v1::ALERT_STATE_OPEN, "")));
    ASSERT_TRUE(comes_to("1"));
    v1::RevokeDeviceRequest request;
    request.set_device_id(to_bytes(table.enrolled.id.value));
    request.set_reason("fell into the harbour");
    v1::RevokeDeviceResponse response;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, request, response).ok());
    EXPECT_TRUE(comes_to("0"));
    EXPECT_TRUE(board.until(has(v1::ALERT_STATE_CLEARED, "")));
    const std::string detail = database.run("select detail from audit where act = 'revoke'");
    EXPECT_NE(detail.find("entries of 1 match"), std::string::npos) << detail;
    EXPECT_NE(detail.find("fell into the harbour"), std::string::npos) << detail;
}

}  // namespace
}  // namespace courthand::server::testing
