// Push against a real server and a real PostgreSQL, over TLS.
#include <gtest/gtest.h>

#include "courthand/v1/desk.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "server/service/court_rights.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "test_client.h"
#include "tests/testkit/eventually.h"
#include "wire/message_limits.h"

namespace courthand::server::testing {
namespace {

using testkit::eventually;
using Outcome = v1::PushResult;

class Push : public ::testing::Test {
  protected:
    EnrolledDevice table(std::uint32_t court = 1) {
        return enrol_device(database_.dsn(), server_.data(), auth::Seat::table, court);
    }
    TestClient client(std::uint32_t court = 1) { return {server_.address(), table(court)}; }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
};

std::vector<Outcome::Outcome> outcomes(const v1::PushResponse& response) {
    std::vector<Outcome::Outcome> all;
    for (const auto& result : response.results()) all.push_back(result.outcome());
    return all;
}

/// Where each entry lies: 0 is the record itself, otherwise the number of a branch.
std::vector<std::uint32_t> places(const v1::PushResponse& response) {
    std::vector<std::uint32_t> all;
    for (const auto& result : response.results()) all.push_back(result.branch());
    return all;
}

TEST_F(Push, AppendsAMatchOpenedAtTheTableByteByByte) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(3);
    const v1::Match match = test_match(record.match());
    const auto pushed = table.push(record, 1, record.size(), &match);
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(6, Outcome::OUTCOME_APPENDED));
    EXPECT_EQ(pushed.response.head_seq(), 6u);
    EXPECT_EQ(pushed.response.head_hash(), record.head_hash());
    EXPECT_EQ(pushed.response.writer().number(), 1u);
    EXPECT_TRUE(pushed.response.writer().self_granted());
    EXPECT_FALSE(pushed.response.header().server_id().empty());
    EXPECT_EQ(table.fetch_record(record.match()), record.bytes());
}

TEST_F(Push, TheSameEntriesAgainAreAlreadyHad) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 4, &match).status.ok());
    record.add_rallies(1);
    const auto again = table.push(record, 3, 6, &match);
    ASSERT_TRUE(again.status.ok()) << again.status.error_message();
    EXPECT_EQ(outcomes(again.response),
              (std::vector{Outcome::OUTCOME_ALREADY_HAD, Outcome::OUTCOME_ALREADY_HAD,
                           Outcome::OUTCOME_APPENDED, Outcome::OUTCOME_APPENDED}));
    EXPECT_EQ(places(again.response), std::vector<std::uint32_t>(4, 0)) << "in the record";
    EXPECT_EQ(again.response.head_seq(), 6u);
}

// The database has no room for such a number: the push failed for ever, and with it the group.
TEST_F(Push, AnEpochBeyondTheLimitIsUnreadable) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 0, &match).status.ok());
    v1::Entry entry;
    ASSERT_TRUE(entry.ParseFromString(record.bytes()[0]));
    entry.set_epoch(0x8000'0000U);
    const auto pushed = table.push_bytes(record.match(), {entry.SerializeAsString()});
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(outcomes(pushed.response), std::vector{Outcome::OUTCOME_INVALID});
    EXPECT_EQ(pushed.response.results(0).cause(), Outcome::CAUSE_UNREADABLE);
}

// A table never comes near: a push has 500 entries of 4 KiB at most.
TEST_F(Push, AMessageAboveFourMebibytesIsRefusedInOurWordsAndCostsItsCallOnly) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 0, &match).status.ok());
    const auto push_of = [&](std::size_t bytes) {
        return table.push_bytes(record.match(), {std::string(bytes, 'x')}).status;
    };
    const std::string ours = "is too large, at most 4194304 are read; send fewer entries";
    const grpc::Status above = push_of(wire::most_message_bytes);
    EXPECT_EQ(above.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(above.error_message().find(ours), std::string::npos) << above.error_message();
    // Beyond what gRPC reads it refuses before any code of ours sees the message, in its own words.
    const grpc::Status beyond = push_of(wire::most_read_bytes);
    EXPECT_EQ(beyond.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    EXPECT_NE(beyond.error_message().find("larger than max"), std::string::npos)
        << beyond.error_message();
    // A little less than ours is read: what it says is looked at.
    const auto below =
        table.push_bytes(record.match(), {std::string(wire::most_message_bytes - 1024, 'x')});
    ASSERT_TRUE(below.status.ok()) << below.status.error_message();
    EXPECT_EQ(outcomes(below.response), std::vector{Outcome::OUTCOME_INVALID});
    EXPECT_TRUE(table.push(record, 1, 2, &match).status.ok()) << "on the same connection";
}

TEST_F(Push, AGapNamesTheEntryThatIsWanted) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(3);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 2, &match).status.ok());
    const auto pushed = table.push(record, 4, 6);
    ASSERT_TRUE(pushed.status.ok());
    EXPECT_EQ(outcomes(pushed.response), std::vector<Outcome::Outcome>(3, Outcome::OUTCOME_GAP));
    EXPECT_EQ(pushed.response.head_seq(), 2u);
}

TEST_F(Push, AnotherDeviceOfTheEpochIsKeptOnABranch) {
    TestClient table = client();
    TestClient other = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 4, &match).status.ok());
    TestRecord forked{record.match(), other.device().id};
    forked.add_rallies(1);
    const auto pushed = other.push(forked, 1, 2);
    ASSERT_TRUE(pushed.status.ok());
    EXPECT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_STORED_ON_BRANCH));
    EXPECT_EQ(pushed.response.head_seq(), 4u);
    EXPECT_EQ(table.fetch_record(record.match()), record.bytes());
    EXPECT_EQ(database_.run("select count(*) from branch"), "2");
    EXPECT_EQ(places(pushed.response), std::vector<std::uint32_t>(2, 1));
    const auto again = other.push(forked, 1, 2);
    EXPECT_EQ(outcomes(again.response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_ALREADY_HAD));
    EXPECT_EQ(places(again.response), std::vector<std::uint32_t>(2, 1)) << "on that branch";
}

TEST_F(Push, ADevicePutBackFromABackupForksAndLosesNothing) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 4, &match).status.ok());
    const std::vector<std::string> kept = record.bytes();
    record.cut_after(2);
    record.add_rallies(2);
    const auto pushed = table.push(record, 3, 6);
    ASSERT_TRUE(pushed.status.ok());
    EXPECT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(4, Outcome::OUTCOME_STORED_ON_BRANCH));
    EXPECT_EQ(table.fetch_record(record.match()), kept);
}

TEST_F(Push, UnreadableBytesAreInvalidAndNameTheField) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 2, &match).status.ok());
    v1::Entry entry;
    ASSERT_TRUE(entry.ParseFromString(record.bytes().front()));
    entry.mutable_fact()->mutable_serve()->set_server(107);
    entry.mutable_fact()->mutable_serve()->set_team(v1::TEAM_LETTER_A);
    const auto pushed =
        table.push_bytes(record.match(), {"no entry at all", entry.SerializeAsString()});
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_INVALID));
    EXPECT_NE(pushed.response.results(1).message().find("serve"), std::string::npos)
        << pushed.response.results(1).message();
    EXPECT_EQ(pushed.response.head_seq(), 2u);
}

TEST_F(Push, AnIdUsedTwiceForDifferentBytesIsInvalid) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 2, &match).status.ok());
    v1::Entry entry;
    ASSERT_TRUE(entry.ParseFromString(record.bytes().back()));
    entry.set_device_time_us(99);
    const auto pushed = table.push_bytes(record.match(), {entry.SerializeAsString()});
    ASSERT_TRUE(pushed.status.ok());
    EXPECT_EQ(outcomes(pushed.response), std::vector{Outcome::OUTCOME_INVALID});
}

TEST_F(Push, WithoutEntriesAnswersTheHead) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    const v1::Match match = test_match(record.match());
    const auto empty = table.push(record, 1, 0, &match);
    ASSERT_TRUE(empty.status.ok()) << empty.status.error_message();
    EXPECT_EQ(empty.response.head_seq(), 0u);
    EXPECT_EQ(empty.response.head_hash(), record.head_hash());
    record.add_rallies(1);
    ASSERT_TRUE(table.push(record, 1, 2).status.ok());
    EXPECT_EQ(table.push(record, 1, 0).response.head_seq(), 2u);
}

TEST_F(Push, OfAnUnknownMatchIsRefusedWithTheCure) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const auto pushed = table.push(record, 1, 2);
    ASSERT_TRUE(pushed.status.ok());
    EXPECT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_INVALID));
    EXPECT_NE(pushed.response.results(0).message().find("desk"), std::string::npos);
}

TEST_F(Push, TooManyEntriesAtOnceAreRefused) {
    TestClient table = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(251);
    const v1::Match match = test_match(record.match());
    EXPECT_EQ(table.push(record, 1, 501, &match).status.error_code(),
              grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_TRUE(table.push(record, 1, 500, &match).status.ok());
}

TEST_F(Push, ANewerProtocolIsToldWhatToDo) {
    TestClient newer{server_.address(), table(), "99"};
    TestRecord record{new_match_id(), newer.device().id};
    record.add_rallies(1);
    const auto pushed = newer.push(record, 1, 2);
    EXPECT_EQ(pushed.status.error_code(), grpc::StatusCode::FAILED_PRECONDITION);
    EXPECT_NE(pushed.status.error_message().find("Update the server"), std::string::npos)
        << pushed.status.error_message();
    v1::WatchRequest request;
    request.set_court(1);
    TestWatch watch{newer, request};
    EXPECT_EQ(watch.finish().error_code(), grpc::StatusCode::FAILED_PRECONDITION);
}

TEST_F(Push, WithoutACertificateIsRefused) {
    EnrolledDevice nobody = table();
    nobody.key_pem.clear();
    nobody.certificate_pem.clear();
    TestClient stranger{server_.address(), nobody};
    TestRecord record{new_match_id(), nobody.id};
    record.add_rallies(1);
    EXPECT_EQ(stranger.push(record, 1, 1).status.error_code(), grpc::StatusCode::UNAUTHENTICATED);
}

TEST_F(Push, ATakeOverFencesTheOldDeviceAndKeepsItsEntriesOnABranch) {
    TestClient old_device = client();
    TestClient new_device = client();
    TestRecord record{new_match_id(), old_device.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(old_device.push(record, 1, 4, &match).status.ok());
    const auto held = new_device.grant(record.match());
    ASSERT_TRUE(held.status.ok()) << held.status.error_message();
    EXPECT_EQ(held.response.outcome(), v1::GrantWriterResponse::OUTCOME_HELD_BY_OTHER);
    EXPECT_FALSE(held.response.message().empty());
    // The desk withdraws the dead device; then the match may be taken over.
    database_.run("update device set revoked_at = now() where device_id = '" +
                  to_text(old_device.device().id) + "'");
    // What is done in the database behind the server's back is noticed within a moment.
    TestClient::Granted granted;
    ASSERT_TRUE(eventually([&] {
        granted = new_device.grant(record.match(), true);
        return granted.response.outcome() == v1::GrantWriterResponse::OUTCOME_GRANTED;
    })) << granted.status.error_message();
    EXPECT_EQ(granted.response.writer().number(), 2u);
    EXPECT_EQ(granted.response.head_hash(), record.head_hash());
    EXPECT_EQ(new_device.grant(record.match()).response.outcome(),
              v1::GrantWriterResponse::OUTCOME_ALREADY_YOURS);

    TestRecord late{record.match(), old_device.device().id};
    late.add_rallies(3);
    // Handed on by the new device, signed by the old one: without the signature nobody would know.
    const auto fenced = new_device.hand_on(late, 1, 6, old_device.device());
    ASSERT_TRUE(fenced.status.ok());
    EXPECT_EQ(outcomes(fenced.response),
              std::vector<Outcome::Outcome>(6, Outcome::OUTCOME_STORED_ON_BRANCH));
    EXPECT_EQ(database_.run("select count(*) from branch where length(signature) between 8 and 80"),
              "6");
    record.go_on_as(new_device.device().id, 2);
    record.add_rallies(1);
    EXPECT_EQ(outcomes(new_device.push(record, 5, 6).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
}

// S1: a push was not bound to the certificate; the honest writer was then branched.
TEST_F(Push, InTheNameOfAnotherDeviceIsRefusedAndTheWriterGoesOn) {
    TestClient writer = client();
    TestClient other = client();
    TestRecord record{new_match_id(), writer.device().id};
    record.add_rallies(3);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(writer.push(record, 1, 4, &match).status.ok());
    for (const auto& pushed :
         {other.push(record, 5, 6), other.hand_on(record, 5, 6, other.device())}) {
        ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
        ASSERT_EQ(outcomes(pushed.response),
                  std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_INVALID));
        EXPECT_EQ(pushed.response.results(0).cause(), Outcome::CAUSE_NOT_ITS_DEVICE);
        EXPECT_EQ(pushed.response.results(0).seq(), 5U);
        EXPECT_FALSE(pushed.response.results(0).message().empty());
    }
    EXPECT_EQ(outcomes(writer.push(record, 5, 6).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
    EXPECT_EQ(database_.run("select count(*) from branch"), "0");
}

TEST_F(Push, OfAnotherDeviceWithItsSignatureIsAsGoodAsItsOwn) {
    TestClient writer = client();
    TestClient other = client();
    TestRecord record{new_match_id(), writer.device().id};
    record.add_rallies(3);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(writer.push(record, 1, 2, &match).status.ok());
    const auto handed = other.hand_on(record, 3, 6, writer.device());
    EXPECT_EQ(outcomes(handed.response),
              std::vector<Outcome::Outcome>(4, Outcome::OUTCOME_APPENDED));
    EXPECT_EQ(writer.fetch_record(record.match()), record.bytes());
    EXPECT_EQ(database_.run("select count(*) from entry where signature is not null"), "4");
}

// S2: the court of a table was never looked at.
TEST_F(Push, ToAnotherCourtsMatchIsRefusedWithItsCause) {
    TestClient here = client(1);
    TestClient there = client(2);
    TestRecord record{new_match_id(), here.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(here.push(record, 1, 2, &match).status.ok());
    TestRecord claim{record.match(), there.device().id};
    claim.add_rallies(1);
    const auto pushed = there.push(claim, 1, 2);
    ASSERT_TRUE(pushed.status.ok());
    ASSERT_EQ(outcomes(pushed.response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_INVALID));
    EXPECT_EQ(pushed.response.results(0).cause(), Outcome::CAUSE_OTHER_COURT);
    EXPECT_EQ(pushed.response.head_seq(), 0U) << "where the record stands is not told";
    EXPECT_EQ(there.push(claim, 1, 0).status.error_code(), grpc::StatusCode::PERMISSION_DENIED);
    EXPECT_EQ(there.grant(record.match()).status.error_code(), grpc::StatusCode::PERMISSION_DENIED);
    EXPECT_EQ(there.grant(record.match(), true).status.error_code(),
              grpc::StatusCode::PERMISSION_DENIED);
    EXPECT_EQ(there.fetch(record.match()).status.error_code(), grpc::StatusCode::PERMISSION_DENIED);
    TestWatch watch{there, watch_match(record.match())};
    EXPECT_EQ(watch.finish().error_code(), grpc::StatusCode::PERMISSION_DENIED);
    EXPECT_EQ(database_.run("select count(*) from branch"), "0");
}

TEST_F(Push, OfAMatchOfTheDeskIsNotOpenedElsewhereWhileTheServerHasNotHeardOfIt) {
    TestClient here = client(1);
    TestClient there = client(2);
    TestRecord record{new_match_id(), here.device().id};
    record.add_rallies(1);
    // As another server would store it: this one hears of it only when it looks at the feed.
    const std::string id = record.match().to_text();
    database_.run(
        "insert into match (tournament_id, match_id, number, court, first_name, second_name, "
        "format, profile, profile_hash, status, head_hash, moved_in) select tournament_id, '" +
        id +
        "', 7, 1, 'A', 'B', '{5,0,25,15,2,0,0,0,8}', 'international-2025', "
        "'\\x0000000000000001', 1, sha256(decode(replace('" +
        id + "', '-', ''), 'hex')), generation from tournament");
    TestRecord claim{record.match(), there.device().id};
    claim.add_rallies(1);
    v1::Match match = test_match(record.match());
    match.set_court(2);
    const auto pushed = there.push(claim, 1, 2, &match);
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    EXPECT_EQ(pushed.response.results(0).cause(), Outcome::CAUSE_OTHER_COURT);
    match.set_court(1);
    EXPECT_EQ(outcomes(here.push(record, 1, 2, &match).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
}

TEST_F(Push, OpensMatchesOnItsOwnCourtOnlyAndABoundedNumber) {
    TestClient table = client(1);
    TestRecord far{new_match_id(), table.device().id};
    far.add_rallies(1);
    const v1::Match elsewhere = test_match(far.match(), 2);
    const auto refused = table.push(far, 1, 2, &elsewhere);
    ASSERT_TRUE(refused.status.ok());
    EXPECT_EQ(refused.response.results(0).cause(), Outcome::CAUSE_OTHER_COURT);
    EXPECT_EQ(database_.run("select count(*) from match"), "0");
    for (std::size_t i = 0; i < service::CourtRights::most_opened_per_court; ++i) {
        const TestRecord empty{new_match_id(), table.device().id};
        const v1::Match match = test_match(empty.match());
        ASSERT_TRUE(table.push(empty, 1, 0, &match).status.ok()) << i;
    }
    TestRecord more{new_match_id(), table.device().id};
    more.add_rallies(1);
    const v1::Match match = test_match(more.match());
    const auto full = table.push(more, 1, 2, &match);
    ASSERT_TRUE(full.status.ok());
    EXPECT_EQ(full.response.results(0).cause(), Outcome::CAUSE_FULL);
    EXPECT_NE(full.response.results(0).message().find("desk"), std::string::npos);
    TestClient neighbour = client(2);
    TestRecord other{new_match_id(), neighbour.device().id};
    other.add_rallies(1);
    const v1::Match theirs = test_match(other.match(), 2);
    EXPECT_EQ(outcomes(neighbour.push(other, 1, 2, &theirs).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
}

TEST_F(Push, AMatchThatWasMovedIsStillHandedOverByWhoWroteIt) {
    TestClient old_table = client(1);
    TestClient new_table = client(2);
    TestRecord record{new_match_id(), old_table.device().id};
    record.add_rallies(2);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(old_table.push(record, 1, 2, &match).status.ok());
    TestClient desk{server_.address(),
                    enrol_device(database_.dsn(), server_.data(), auth::Seat::desk)};
    v1::AssignCourtRequest move;
    move.set_match_id(record.match().to_bytes());
    move.set_court(2);
    v1::AssignCourtResponse moved;
    grpc::ClientContext context;
    desk.prepare(context);
    const auto status = v1::Desk::NewStub(desk.channel())->AssignCourt(&context, move, &moved);
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(outcomes(old_table.push(record, 3, 4).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
    EXPECT_TRUE(new_table.fetch(record.match()).status.ok());
    EXPECT_EQ(new_table.grant(record.match(), true).response.outcome(),
              v1::GrantWriterResponse::OUTCOME_ASKED);
    database_.run("update match set epoch = 2, writer = '" + to_text(new_table.device().id) + "'");
    EXPECT_TRUE(old_table.fetch(record.match()).status.ok()) << "it has written entries of it";
}

// Fault 10: a spare tablet took the next match merely by fetching.
TEST_F(Push, LookingAtAMatchNeverMakesAWriter) {
    TestClient table = client();
    TestClient spare = client();
    TestRecord record{new_match_id(), table.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(table.push(record, 1, 0, &match).status.ok());
    ASSERT_TRUE(spare.fetch(record.match()).status.ok());
    {
        TestWatch watch{spare, watch_match(record.match())};
        ASSERT_TRUE(watch.read());
    }
    EXPECT_EQ(database_.run("select epoch from match"), "0");
    EXPECT_EQ(outcomes(table.push(record, 1, 2).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_APPENDED));
}

TEST_F(Push, ATakeOverOfALiveDeviceIsAskedForAndKept) {
    TestClient writer = client();
    TestClient spare = client();
    TestRecord record{new_match_id(), writer.device().id};
    record.add_rallies(1);
    const v1::Match match = test_match(record.match());
    ASSERT_TRUE(writer.push(record, 1, 2, &match).status.ok());
    const auto asked = spare.grant(record.match(), true);
    ASSERT_TRUE(asked.status.ok()) << asked.status.error_message();
    EXPECT_EQ(asked.response.outcome(), v1::GrantWriterResponse::OUTCOME_ASKED);
    EXPECT_EQ(asked.response.writer().device_id(), to_bytes(writer.device().id.value));
    EXPECT_EQ(database_.run("select asked_by from match"), to_text(spare.device().id));
    EXPECT_EQ(outcomes(writer.push(record, 1, 2).response),
              std::vector<Outcome::Outcome>(2, Outcome::OUTCOME_ALREADY_HAD));
    EXPECT_EQ(writer.grant(record.match(), true).response.outcome(),
              v1::GrantWriterResponse::OUTCOME_ALREADY_YOURS);
}

TEST_F(Push, EveryAnswerNamesGenerationAndVersion) {
    TestClient table = client();
    const TestRecord record{new_match_id(), table.device().id};
    const v1::Match match = test_match(record.match());
    const std::string generation = database_.run("select generation from tournament");
    const auto expect_named = [&](const char* answer, const v1::ResponseHeader& header) {
        SCOPED_TRACE(answer);
        const auto named = uuid_from_bytes(header.generation());
        ASSERT_TRUE(named);
        EXPECT_EQ(to_text(*named), generation);
        EXPECT_FALSE(header.server_version().empty());
    };
    const auto pushed = table.push(record, 1, 0, &match);
    ASSERT_TRUE(pushed.status.ok()) << pushed.status.error_message();
    expect_named("push", pushed.response.header());
    const auto granted = table.grant(record.match());
    ASSERT_TRUE(granted.status.ok()) << granted.status.error_message();
    expect_named("grant", granted.response.header());
    const auto fetched = table.fetch(record.match());
    ASSERT_TRUE(fetched.status.ok()) << fetched.status.error_message();
    expect_named("fetch", fetched.response.header());
    TestWatch watch{table, watch_match(record.match())};
    ASSERT_TRUE(watch.read());
    expect_named("watch", watch.responses.front().header());

    TestClient head{server_.address(),
                    enrol_device(database_.dsn(), server_.data(), auth::Seat::head)};
    grpc::ClientContext context;
    head.prepare(context);
    const auto board = v1::Venue::NewStub(head.channel())->WatchBoard(&context, {});
    v1::WatchBoardResponse shown;
    ASSERT_TRUE(board->Read(&shown));
    expect_named("board", shown.header());
    context.TryCancel();
    while (board->Read(&shown)) {
    }
    (void)board->Finish();
}

}  // namespace
}  // namespace courthand::server::testing
