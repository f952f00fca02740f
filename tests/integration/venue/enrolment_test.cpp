// A device is let in, or turned away with the cure, over TLS by a real server.
#include <gtest/gtest.h>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/auth/attempt_limiter.h"
#include "server/store/postgres/database.h"
#include "server/testing/forwarder.h"
#include "tests/testkit/eventually.h"
#include "wire/enrolment_code.h"
#include "wire/protocol_version.h"

namespace courthand::server::testing {
namespace {

class Enrolment : public ::testing::Test {
  protected:
    /// A code as the desk reads it out; only its secret goes to the server.
    std::string secret_for(v1::Seat seat, std::uint32_t court = 0) {
        v1::IssueCodeRequest request;
        request.set_seat(seat);
        request.set_court(court);
        v1::IssueCodeResponse response;
        const auto status = call(*desk.desk, &v1::Desk::Stub::IssueCode, request, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        const auto code = wire::EnrolmentCode::parse(response.code());
        if (const auto* why = std::get_if<std::string>(&code)) {
            ADD_FAILURE() << *why;
            return {};
        }
        const auto der = wire::certificate_der(authority_of(server));
        EXPECT_TRUE(der && std::get<wire::EnrolmentCode>(code).fits(*der));
        return std::get<wire::EnrolmentCode>(code).secret();
    }

    grpc::Status enrol(const std::string& secret, v1::EnrolResponse& response,
                       std::uint32_t protocol = wire::protocol_version) {
        const auto channel = connect(server.address(), authority_of(server));
        const auto stub = v1::Enrolment::NewStub(channel);
        return call(*stub, &v1::Enrolment::Stub::Enrol, request_with(secret, protocol), response);
    }

    static std::string mistyped(std::string secret) {
        secret.back() = secret.back() == '0' ? '1' : '0';
        return secret;
    }

    /// From another address of this machine, through a forwarder that calls from there.
    bool enrol_from(const char* address, const std::string& secret, v1::EnrolResponse& response) {
        const Forwarder forwarder{address, server.port()};
        const auto stub =
            v1::Enrolment::NewStub(connect(forwarder.address(), authority_of(server)));
        const auto status =
            call(*stub, &v1::Enrolment::Stub::Enrol, request_with(secret), response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return status.ok();
    }

    v1::EnrolRequest request_with(const std::string& secret,
                                  std::uint32_t protocol = wire::protocol_version) const {
        v1::EnrolRequest request;
        request.set_code_secret(secret);
        request.set_signing_request_pem(keys.request_pem);
        request.set_device_name("tablet of court 3");
        request.set_protocol_version(protocol);
        return request;
    }

    Device device_with(const v1::EnrolResponse& response) {
        EnrolledDevice device;
        device.id.value = *uuid_from_bytes(response.device_id());
        device.key_pem = keys.key_pem;
        device.certificate_pem = response.certificate_pem();
        device.authority_pem = response.authority_pem();
        return {server, device};
    }

    grpc::Status fetch(Device& device) {
        v1::FetchMatchRequest request;
        request.set_court(3);
        v1::FetchMatchResponse response;
        return call(*device.sync, &v1::Sync::Stub::FetchMatch, request, response);
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device desk = Device::at(server, auth::Seat::desk);
    KeyAndRequest keys = new_key_and_request();
};

TEST_F(Enrolment, ARightCodeLetsTheDeviceInToItsSeatAndCourt) {
    v1::EnrolResponse response;
    const auto status = enrol(secret_for(v1::SEAT_TABLE, 3), response);
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(response.seat(), v1::SEAT_TABLE);
    EXPECT_EQ(response.court(), 3U);
    EXPECT_EQ(response.tournament_id().size(), 16U);
    EXPECT_EQ(response.tournament_name(), "Tournament") << "the name of one that nobody named";
    Device table = device_with(response);
    EXPECT_TRUE(fetch(table).ok());

    v1::ListDevicesResponse devices;
    ASSERT_TRUE(
        call(*desk.desk, &v1::Desk::Stub::ListDevices, v1::ListDevicesRequest{}, devices).ok());
    ASSERT_EQ(devices.devices_size(), 2);
    EXPECT_EQ(devices.devices(0).name(), "tablet of court 3") << "newest first";
    EXPECT_EQ(devices.devices(0).device_id(), response.device_id());
}

TEST_F(Enrolment, WrongUsedAndExpiredCodesAreTurnedAwayWithTheCure) {
    const auto refused = [&](const std::string& secret, const char* words) {
        v1::EnrolResponse response;
        const auto status = enrol(secret, response);
        EXPECT_EQ(status.error_code(), grpc::StatusCode::PERMISSION_DENIED);
        EXPECT_NE(status.error_message().find(words), std::string::npos) << status.error_message();
        EXPECT_NE(status.error_message().find("ask the desk for a new enrolment code"),
                  std::string::npos)
            << status.error_message();
        EXPECT_TRUE(response.certificate_pem().empty());
    };
    const std::string secret = secret_for(v1::SEAT_HEAD);
    refused(mistyped(secret), "no such enrolment code");
    v1::EnrolResponse response;
    ASSERT_TRUE(enrol(secret, response).ok());
    keys = new_key_and_request();
    refused(secret, "has been used");

    const std::string late = secret_for(v1::SEAT_HEAD);
    database.run("update enrolment_code set expires_at = now() - interval '1 second'");
    refused(late, "has expired");
}

TEST_F(Enrolment, AStrangerWhoGuessesIsToldToWaitAndStopsNobodyElse) {
    const std::string secret = secret_for(v1::SEAT_HEAD);
    v1::EnrolResponse response;
    grpc::Status status;
    unsigned tries = 0;
    for (; tries < 1000; ++tries) {
        status = enrol(mistyped(secret), response);
        if (status.error_code() != grpc::StatusCode::PERMISSION_DENIED) break;
    }
    // Refills while the tries last, so "about" the burst.
    EXPECT_GE(tries, auth::AttemptLimits{}.address.burst);
    EXPECT_LT(tries, 100U);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_NE(status.error_message().find("wait "), std::string::npos) << status.error_message();

    EXPECT_TRUE(enrol_from("127.0.0.2", secret, response)) << "no code was lost by that";
}

// The tries of a tablet whose calls ran out of time while the database stood still counted as wrong
// codes, and it had to wait for minutes.
TEST_F(Enrolment, ATryThatNobodyLookedAtIsNoWrongCode) {
    const std::string secret = secret_for(v1::SEAT_HEAD);
    const auto stub = v1::Enrolment::NewStub(connect(server.address(), authority_of(server)));
    const unsigned burst = auth::AttemptLimits{}.address.burst;
    v1::EnrolResponse response;
    const auto still = postgres::Database{database.dsn()}.run("hold", [&](pqxx::work& work) {
        work.exec("lock table enrolment_code in access exclusive mode");
        for (unsigned i = 0; i < burst; ++i) {
            grpc::ClientContext context;
            context.AddMetadata("courthand-protocol", "1");
            context.set_wait_for_ready(true);
            context.set_deadline(std::chrono::system_clock::now() + std::chrono::milliseconds{200});
            EXPECT_FALSE(stub->Enrol(&context, request_with(secret), &response).ok());
        }
    });
    ASSERT_TRUE(still.ok()) << still.text();
    // What waits is gone through now; the code works as soon as a try is free.
    ASSERT_TRUE(testkit::eventually([&] {
        return call(*stub, &v1::Enrolment::Stub::Enrol, request_with(secret), response).ok();
    }));
    unsigned given = 0;
    while (given < burst &&
           call(*stub, &v1::Enrolment::Stub::Enrol, request_with(mistyped(secret)), response)
                   .error_code() == grpc::StatusCode::PERMISSION_DENIED)
        ++given;
    EXPECT_GE(given, burst - 2);
}

TEST_F(Enrolment, ALostAnswerIsGivenAgain) {
    const std::string secret = secret_for(v1::SEAT_TABLE, 3);
    v1::EnrolResponse lost;
    ASSERT_TRUE(enrol(secret, lost).ok());
    v1::EnrolResponse response;
    const auto status = enrol(secret, response);
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(response.device_id(), lost.device_id());
    EXPECT_EQ(response.court(), 3U);
    Device table = device_with(response);
    EXPECT_TRUE(fetch(table).ok());
    EXPECT_EQ(database.run("select count(*) from device where length(key) > 64"), "2");
}

TEST_F(Enrolment, AStrangerLearnsNothingAboutTheDatabase) {
    const std::string secret = secret_for(v1::SEAT_HEAD);
    database.run("alter table enrolment_code rename to put_aside");
    v1::EnrolResponse response;
    const auto status = enrol(secret, response);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::UNAVAILABLE);
    for (const char* detail :
         {"enrolment_code", "relation", "127.0.0.1", "5432", "courthand", "sql"})
        EXPECT_EQ(status.error_message().find(detail), std::string::npos) << status.error_message();
    EXPECT_NE(status.error_message().find("try the same code again"), std::string::npos);
    database.run("alter table put_aside rename to enrolment_code");
    EXPECT_TRUE(enrol(secret, response).ok());
}

TEST_F(Enrolment, ADeviceOfANewerProtocolIsToldSo) {
    const std::string secret = secret_for(v1::SEAT_HEAD);
    v1::EnrolResponse response;
    EXPECT_EQ(enrol(secret, response, wire::protocol_version + 1).error_code(),
              grpc::StatusCode::FAILED_PRECONDITION);
    EXPECT_TRUE(enrol(secret, response).ok()) << "the code was not used up";
}

TEST_F(Enrolment, WithoutACertificateNothingElseIsOpen) {
    const auto channel = connect(server.address(), authority_of(server));
    const auto desk_stub = v1::Desk::NewStub(channel);
    v1::ListMatchesResponse matches;
    const auto status =
        call(*desk_stub, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::UNAUTHENTICATED);
    EXPECT_NE(status.error_message().find("ask the desk"), std::string::npos);

    const auto sync = v1::Sync::NewStub(channel);
    v1::PushResponse pushed;
    EXPECT_EQ(call(*sync, &v1::Sync::Stub::Push, v1::PushRequest{}, pushed).error_code(),
              grpc::StatusCode::UNAUTHENTICATED);
}

TEST_F(Enrolment, ACertificateOfAnotherVenueIsNoCertificate) {
    TestDatabase other_database;
    const ServerProcess other{{other_database.dsn(), {}, 0, {}}};
    EnrolledDevice stranger = enrol_device(other.dsn(), other.data(), auth::Seat::desk);
    stranger.authority_pem = authority_of(server);
    Device device{server, stranger};
    v1::ListMatchesResponse matches;
    grpc::ClientContext context;
    context.set_deadline(std::chrono::system_clock::now() + std::chrono::seconds{20});
    EXPECT_FALSE(device.desk->ListMatches(&context, {}, &matches).ok());
}

TEST_F(Enrolment, EachSeatIsKeptToItsOwnCalls) {
    Device table = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    v1::IssueCodeResponse code;
    EXPECT_EQ(
        call(*table.desk, &v1::Desk::Stub::IssueCode, v1::IssueCodeRequest{}, code).error_code(),
        grpc::StatusCode::PERMISSION_DENIED);
    EXPECT_EQ(
        call(*head.desk, &v1::Desk::Stub::IssueCode, v1::IssueCodeRequest{}, code).error_code(),
        grpc::StatusCode::PERMISSION_DENIED);
    v1::RuleResponse ruled;
    EXPECT_EQ(call(*table.venue, &v1::Venue::Stub::Rule, v1::RuleRequest{}, ruled).error_code(),
              grpc::StatusCode::PERMISSION_DENIED);
    v1::PushResponse pushed;
    EXPECT_EQ(call(*head.sync, &v1::Sync::Stub::Push, v1::PushRequest{}, pushed).error_code(),
              grpc::StatusCode::PERMISSION_DENIED);
    v1::ListMatchesResponse matches;
    EXPECT_TRUE(
        call(*head.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches).ok());
}

TEST_F(Enrolment, AWithdrawnDeviceIsTurnedAwayAndItsOpenBoardEnds) {
    Device head = Device::at(server, auth::Seat::head);
    BoardWatch board{head};
    ASSERT_TRUE(board.read());
    v1::RevokeDeviceRequest request;
    request.set_device_id(to_bytes(head.enrolled.id.value));
    v1::RevokeDeviceResponse response;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, request, response).ok());
    EXPECT_TRUE(response.device().revoked());
    v1::ListMatchesResponse matches;
    const auto status =
        call(*head.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::UNAUTHENTICATED);
    EXPECT_NE(status.error_message().find("withdrawn"), std::string::npos);
    EXPECT_EQ(board.finish().error_code(), grpc::StatusCode::UNAUTHENTICATED);
}

TEST_F(Enrolment, ADeviceStaysEnrolledOverARestart) {
    Device head = Device::at(server, auth::Seat::head);
    server.kill9();
    server.start_again();
    Device again{server, head.enrolled};
    v1::ListMatchesResponse matches;
    EXPECT_TRUE(
        call(*again.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches).ok());
}

}  // namespace
}  // namespace courthand::server::testing
