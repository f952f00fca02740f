// What was done and what was refused is in the database and readable at the desk.
#include <gtest/gtest.h>

#include <optional>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/audit/audit_trail.h"
#include "tests/testkit/eventually.h"
#include "wire/enrolment_code.h"

namespace courthand::server::testing {
namespace {

class Audit : public ::testing::Test {
  protected:
    std::vector<v1::AuditLine> lines(std::uint64_t before = 0, std::uint32_t most = 0) {
        v1::ListAuditRequest request;
        request.set_before(before);
        request.set_most(most);
        v1::ListAuditResponse response;
        const auto status = call(*desk.desk, &v1::Desk::Stub::ListAudit, request, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return {response.lines().begin(), response.lines().end()};
    }
    /// The newest line of an act, once it is there: refusals are written a moment later.
    std::optional<v1::AuditLine> line(const std::string& act, bool refused) {
        std::optional<v1::AuditLine> found;
        EXPECT_TRUE(testkit::eventually([&] {
            for (const v1::AuditLine& one : lines())
                if (!found && one.act() == act && one.refused() == refused) found = one;
            return found.has_value();
        })) << act;
        return found;
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device desk = Device::at(server, auth::Seat::desk);
};

/// From now on the database takes no row of the audit, until it is let again.
class ClosedAudit {
  public:
    explicit ClosedAudit(const TestDatabase& database) : database_{database} {
        database_.run("alter table audit add constraint closed check (false) not valid");
    }
    ~ClosedAudit() { database_.run("alter table audit drop constraint closed"); }
    ClosedAudit(const ClosedAudit&) = delete;
    ClosedAudit& operator=(const ClosedAudit&) = delete;

  private:
    const TestDatabase& database_;
};

TEST_F(Audit, EveryActNamesTheDeviceOfTheCertificateAndItsTime) {
    v1::IssueCodeRequest wish;
    wish.set_seat(v1::SEAT_TABLE);
    wish.set_court(3);
    v1::IssueCodeResponse code;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::IssueCode, wish, code).ok());
    const auto issued = line("issue-code", false);
    ASSERT_TRUE(issued);
    EXPECT_EQ(issued->device_id(), to_bytes(desk.enrolled.id.value));
    EXPECT_EQ(issued->device_name(), "test device");
    EXPECT_EQ(issued->seat(), v1::SEAT_DESK);
    EXPECT_EQ(issued->subject(), "table");
    EXPECT_EQ(issued->detail(), "court 3");
    EXPECT_GT(issued->at_us(), 0);
    EXPECT_EQ(issued->detail().find(code.code().substr(0, 4)), std::string::npos);

    Device table = Device::at(server, auth::Seat::table, 1);
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    push_all(table, TestRecord{match, table.enrolled.id}, &opened);
    v1::GrantWriterRequest grant;
    grant.set_match_id(match.to_bytes());
    v1::GrantWriterResponse granted;
    ASSERT_TRUE(call(*table.sync, &v1::Sync::Stub::GrantWriter, grant, granted).ok());
    const auto grant_line = line("grant", false);
    ASSERT_TRUE(grant_line);
    EXPECT_EQ(grant_line->device_id(), to_bytes(table.enrolled.id.value));
    EXPECT_EQ(grant_line->court(), 1U);
    EXPECT_EQ(grant_line->subject(), match.to_text());

    Device spare = Device::at(server, auth::Seat::table, 1);
    grant.set_take_over(true);
    ASSERT_TRUE(call(*spare.sync, &v1::Sync::Stub::GrantWriter, grant, granted).ok());
    ASSERT_TRUE(line("ask-take-over", false));
    EXPECT_EQ(line("ask-take-over", false)->device_id(), to_bytes(spare.enrolled.id.value));

    v1::RevokeDeviceRequest revoke;
    revoke.set_device_id(to_bytes(table.enrolled.id.value));
    revoke.set_reason("fell into\nthe harbour");
    v1::RevokeDeviceResponse revoked;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, revoke, revoked).ok());
    const auto revoke_line = line("revoke", false);
    ASSERT_TRUE(revoke_line);
    EXPECT_EQ(revoke_line->subject(), to_text(table.enrolled.id));
    EXPECT_EQ(revoke_line->detail(), "fell into the harbour");
}

TEST_F(Audit, ActsOfDeskAndHeadAreThereAlsoThoseThatFailed) {
    v1::ImportRosterRequest lists;
    lists.set_csv("team,number\nQuayside,1\nSandbar,1\n");
    lists.set_file_name("teams.csv");
    v1::ImportRosterResponse teams;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::ImportRoster, lists, teams).ok());
    EXPECT_EQ(line("import-roster", false)->subject(), "teams.csv");
    v1::CreateMatchRequest wish;
    const wire::Uuid match = new_match_id();
    wish.set_match_id(match.to_bytes());
    wish.set_first_team_id(teams.teams(0).team_id());
    wish.set_second_team_id(teams.teams(1).team_id());
    wish.set_profile_id("international-2025");
    v1::CreateMatchResponse created;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::CreateMatch, wish, created).ok());
    EXPECT_EQ(line("create-match", false)->subject(), match.to_text());
    v1::AssignCourtRequest move;
    move.set_match_id(match.to_bytes());
    move.set_court(4);
    v1::AssignCourtResponse moved;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::AssignCourt, move, moved).ok());
    EXPECT_EQ(line("assign-court", false)->detail(), "court 4");

    Device head = Device::at(server, auth::Seat::head);
    v1::ClaimRequest claim;
    claim.set_alert_id("no such alert");
    claim.set_by("Head official");
    v1::ClaimResponse claimed;
    ASSERT_FALSE(call(*head.venue, &v1::Venue::Stub::Claim, claim, claimed).ok());
    const auto failed = line("claim", true);
    ASSERT_TRUE(failed);
    EXPECT_EQ(failed->subject(), "no such alert");
    EXPECT_EQ(failed->device_id(), to_bytes(head.enrolled.id.value));
    EXPECT_EQ(failed->detail().find("Head official: "), 0U) << failed->detail();
}

TEST_F(Audit, ARulingIsThereWithDecisionNameAndDevice) {
    Device table = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    push_all(table,
             record_of("# common practice, no source: a second replacement before a rally\n"
                       "profile international-2025\n"
                       "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
                       "team B \"Mill Lane\" players 31-38 41 captain 33\n"
                       "toss serve A left A\nset 1\n"
                       "lineup A 1 2 3 4 5 6 liberos 21 22\n"
                       "lineup B 31 32 33 34 35 36 liberos 41 none\n"
                       "checked A\nchecked B\n"
                       "libero A 21 for 5\nserve\nrally A\nlibero A 5 for 21\n"
                       "libero A 22 for 6\nserve\n",
                       match, table.enrolled.id),
             &opened);
    BoardWatch board{head};
    ASSERT_TRUE(board.until([](const BoardWatch& watch) {
        return watch.alert("libero-no-completed-rally") != nullptr;
    }));
    v1::RuleRequest rule;
    rule.set_alert_id(board.alert("libero-no-completed-rally")->alert_id());
    rule.set_decision(v1::DECISION_OVERRULE);
    rule.set_by("Head official");
    rule.set_note("seen from the stand");
    v1::RuleResponse ruled;
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(call(*head.venue, &v1::Venue::Stub::Rule, rule, ruled).ok());
        EXPECT_EQ(database.run("select count(*) from alert_life where what = 3"), "0");
        EXPECT_EQ(database.run("select count(*) from feed where kind = 4"), "0");
    }
    const auto status = call(*head.venue, &v1::Venue::Stub::Rule, rule, ruled);
    ASSERT_TRUE(status.ok()) << status.error_message();
    const auto kept = line("rule", false);
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->subject(), rule.alert_id());
    EXPECT_EQ(kept->detail(), "overruled, Head official: seen from the stand");
    EXPECT_EQ(kept->seat(), v1::SEAT_HEAD);
    EXPECT_EQ(kept->device_id(), to_bytes(head.enrolled.id.value));
}

// An act and its row were two transactions: an act could stand without its row.
TEST_F(Audit, AnActOfTheDeskWhoseRowCannotBeKeptIsNotDone) {
    v1::ImportRosterRequest lists;
    lists.set_csv("team,number\nQuayside,1\nSandbar,1\n");
    v1::ImportRosterResponse teams;
    v1::CreateMatchRequest wish;
    v1::CreateMatchResponse created;
    v1::AssignCourtRequest move;
    v1::AssignCourtResponse moved;
    v1::IssueCodeRequest code_wish;
    code_wish.set_seat(v1::SEAT_HEAD);
    v1::IssueCodeResponse code;
    v1::RevokeDeviceRequest revoke;
    v1::RevokeDeviceResponse revoked;
    const EnrolledDevice lost = enrol_device(database.dsn(), server.data(), auth::Seat::table, 3);
    revoke.set_device_id(to_bytes(lost.id.value));
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(call(*desk.desk, &v1::Desk::Stub::ImportRoster, lists, teams).ok());
        EXPECT_EQ(database.run("select count(*) from tournament_fact"), "0");
        EXPECT_FALSE(call(*desk.desk, &v1::Desk::Stub::IssueCode, code_wish, code).ok());
        EXPECT_EQ(database.run("select count(*) from enrolment_code where used_at is null"), "0");
        EXPECT_FALSE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, revoke, revoked).ok());
        EXPECT_EQ(database.run("select count(*) from device where revoked_at is not null"), "0");
    }
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::ImportRoster, lists, teams).ok());
    const wire::Uuid match = new_match_id();
    wish.set_match_id(match.to_bytes());
    wish.set_first_team_id(teams.teams(0).team_id());
    wish.set_second_team_id(teams.teams(1).team_id());
    wish.set_profile_id("international-2025");
    move.set_match_id(match.to_bytes());
    move.set_court(4);
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(call(*desk.desk, &v1::Desk::Stub::CreateMatch, wish, created).ok());
        EXPECT_EQ(database.run("select count(*) from match"), "0");
    }
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::CreateMatch, wish, created).ok());
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(call(*desk.desk, &v1::Desk::Stub::AssignCourt, move, moved).ok());
        EXPECT_EQ(database.run("select court from match"), "0");
    }
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::AssignCourt, move, moved).ok());
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, revoke, revoked).ok());
    for (const char* act : {"import-roster", "create-match", "assign-court", "revoke"})
        EXPECT_EQ(database.run(std::string{"select count(*) from audit where not refused "
                                           "and act = '"} +
                               act + "'"),
                  "1")
            << act;
}

TEST_F(Audit, AListOfWhichNothingWasKeptIsNoImport) {
    v1::ImportRosterRequest lists;
    lists.set_csv("team,number\nQuayside,one hundred\n");
    lists.set_file_name("teams.csv");
    v1::ImportRosterResponse teams;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::ImportRoster, lists, teams).ok());
    ASSERT_FALSE(teams.kept());
    const auto row = line("import-roster", true);
    ASSERT_TRUE(row);
    EXPECT_EQ(row->subject(), "teams.csv");
    EXPECT_NE(row->detail().find("nothing was kept: 1 error"), std::string::npos) << row->detail();
    EXPECT_EQ(database.run("select count(*) from audit where act = 'import-roster'"), "1");
}

TEST_F(Audit, ACodeOfTheCommandLineIsThere) {
    const auto code =
        run_server_command({"code", "--database", database.dsn(), "--data", server.data().string(),
                            "--seat", "table", "--court", "7"});
    ASSERT_EQ(code.exit_code, 0) << code.output;
    const auto issued = line("issue-code", false);
    ASSERT_TRUE(issued);
    EXPECT_EQ(issued->device_id(), "") << "nobody with a certificate";
    EXPECT_EQ(issued->subject(), "table");
    EXPECT_EQ(issued->detail(), "court 7, on the command line");
    EXPECT_EQ(issued->detail().find(code.output.substr(0, 4)), std::string::npos);
}

TEST_F(Audit, AGrantATakeOverAndAnEnrolmentWhoseRowCannotBeKeptAreNotDone) {
    Device table = Device::at(server, auth::Seat::table, 1);
    Device spare = Device::at(server, auth::Seat::table, 1);
    Device head = Device::at(server, auth::Seat::head);
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    push_all(table, TestRecord{match, table.enrolled.id}, &opened);
    v1::GrantWriterRequest grant;
    grant.set_match_id(match.to_bytes());
    v1::GrantWriterResponse granted;
    v1::GrantWriterRequest ask = grant;
    ask.set_take_over(true);
    v1::AnswerTakeOverRequest answer;
    answer.set_match_id(match.to_bytes());
    answer.set_device_id(to_bytes(spare.enrolled.id.value));
    answer.set_consent(true);
    answer.set_by("Head official");
    v1::AnswerTakeOverResponse answered;
    const auto grant_to = [&](Device& device, const v1::GrantWriterRequest& request) {
        return call(*device.sync, &v1::Sync::Stub::GrantWriter, request, granted).ok();
    };
    const auto let_go_on = [&] {
        return call(*head.venue, &v1::Venue::Stub::AnswerTakeOver, answer, answered).ok();
    };
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(grant_to(table, grant));
        EXPECT_EQ(database.run("select epoch from match"), "0");
    }
    ASSERT_TRUE(grant_to(table, grant));
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(grant_to(spare, ask));
        EXPECT_EQ(database.run("select asked_by is null from match"), "t");
    }
    ASSERT_TRUE(grant_to(spare, ask));
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(let_go_on());
        EXPECT_EQ(database.run("select epoch from match"), "1");
    }
    ASSERT_TRUE(let_go_on());
    for (const char* act : {"grant", "ask-take-over", "answer-take-over"})
        EXPECT_EQ(database.run(std::string{"select count(*) from audit where not refused "
                                           "and act = '"} +
                               act + "'"),
                  "1")
            << act;
    EXPECT_EQ(database.run("select detail from audit where not refused and act = 'grant'"),
              "epoch 1: asked by the device");

    v1::IssueCodeRequest wish;
    wish.set_seat(v1::SEAT_HEAD);
    v1::IssueCodeResponse code;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::IssueCode, wish, code).ok());
    const auto parsed = wire::EnrolmentCode::parse(code.code());
    const auto stub = v1::Enrolment::NewStub(connect(server.address(), authority_of(server)));
    v1::EnrolRequest request;
    request.set_protocol_version(1);
    request.set_code_secret(std::get<wire::EnrolmentCode>(parsed).secret());
    request.set_device_name("Head seat");
    request.set_signing_request_pem(new_key_and_request().request_pem);
    v1::EnrolResponse enrolled;
    {
        const ClosedAudit closed{database};
        EXPECT_FALSE(call(*stub, &v1::Enrolment::Stub::Enrol, request, enrolled).ok());
        EXPECT_EQ(database.run("select count(*) from device where name = 'Head seat'"), "0");
    }
    EXPECT_TRUE(call(*stub, &v1::Enrolment::Stub::Enrol, request, enrolled).ok())
        << "the code was not used up";
}

TEST_F(Audit, RefusalsOfGateAndHandlersAreThereWithTheReason) {
    Device head = Device::at(server, auth::Seat::head);
    v1::IssueCodeResponse code;
    ASSERT_FALSE(call(*head.desk, &v1::Desk::Stub::IssueCode, v1::IssueCodeRequest{}, code).ok());
    const auto gate = line("call", true);
    ASSERT_TRUE(gate);
    EXPECT_EQ(gate->subject(), "/courthand.v1.Desk/IssueCode");
    EXPECT_EQ(gate->device_id(), to_bytes(head.enrolled.id.value));
    EXPECT_NE(gate->detail().find("head"), std::string::npos);

    Device table = Device::at(server, auth::Seat::table, 2);
    v1::FetchMatchRequest fetch;
    fetch.set_court(1);
    v1::FetchMatchResponse fetched;
    ASSERT_FALSE(call(*table.sync, &v1::Sync::Stub::FetchMatch, fetch, fetched).ok());
    const auto handler = line("fetch", true);
    ASSERT_TRUE(handler);
    EXPECT_EQ(handler->court(), 2U);

    const auto channel = connect(server.address(), authority_of(server));
    const auto stranger = v1::Enrolment::NewStub(channel);
    v1::EnrolRequest request;
    request.set_protocol_version(1);
    request.set_device_name("stranger");
    v1::EnrolResponse enrolled;
    ASSERT_FALSE(call(*stranger, &v1::Enrolment::Stub::Enrol, request, enrolled).ok());
    const auto enrol = line("enrol", true);
    ASSERT_TRUE(enrol);
    EXPECT_TRUE(enrol->device_id().empty());
    EXPECT_NE(enrol->subject().find("127.0.0.1"), std::string::npos) << enrol->subject();
    EXPECT_TRUE(enrol->detail().starts_with("stranger: ")) << enrol->detail();
}

TEST_F(Audit, WhoIsRefusedAgainAndAgainFillsNothing) {
    Device table = Device::at(server, auth::Seat::table, 1);
    v1::ListMatchesResponse matches;
    for (int i = 0; i < 200; ++i)
        ASSERT_EQ(call(*table.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches)
                      .error_code(),
                  grpc::StatusCode::PERMISSION_DENIED);
    ASSERT_TRUE(line("call", true));
    ASSERT_EQ(server.stop(), 0);  // writes what was counted
    EXPECT_EQ(database.run("select count(*) from audit where refused"),
              std::to_string(audit::AuditTrail::most_refusals_a_minute + 1));
    EXPECT_EQ(database.run("select detail like '190 more refusals within a minute%' from audit "
                           "where refused order by number desc limit 1"),
              "t");
}

TEST_F(Audit, IsReadInPages) {
    for (int i = 0; i < 12; ++i) {
        v1::IssueCodeRequest wish;
        wish.set_seat(v1::SEAT_TABLE);
        wish.set_court(static_cast<std::uint32_t>(i + 1));
        v1::IssueCodeResponse code;
        ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::IssueCode, wish, code).ok());
    }
    const auto newest = lines(0, 5);
    ASSERT_EQ(newest.size(), 5U);
    EXPECT_EQ(newest.front().detail(), "court 12");
    const auto next = lines(newest.back().number(), 5);
    ASSERT_EQ(next.size(), 5U);
    EXPECT_EQ(next.front().detail(), "court 7");
    v1::ListAuditRequest greedy;
    greedy.set_most(201);
    v1::ListAuditResponse response;
    EXPECT_EQ(call(*desk.desk, &v1::Desk::Stub::ListAudit, greedy, response).error_code(),
              grpc::StatusCode::INVALID_ARGUMENT);
}

TEST_F(Audit, AnEnrolmentThroughTheServerIsThereWithTheNewDevice) {
    v1::IssueCodeRequest wish;
    wish.set_seat(v1::SEAT_HEAD);
    v1::IssueCodeResponse code;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::IssueCode, wish, code).ok());
    const auto parsed = wire::EnrolmentCode::parse(code.code());
    ASSERT_TRUE(std::holds_alternative<wire::EnrolmentCode>(parsed));
    const auto channel = connect(server.address(), authority_of(server));
    const auto stub = v1::Enrolment::NewStub(channel);
    v1::EnrolRequest request;
    request.set_protocol_version(1);
    request.set_code_secret(std::get<wire::EnrolmentCode>(parsed).secret());
    request.set_device_name("Head seat");
    request.set_signing_request_pem(new_key_and_request().request_pem);
    v1::EnrolResponse enrolled;
    ASSERT_TRUE(call(*stub, &v1::Enrolment::Stub::Enrol, request, enrolled).ok());
    const auto enrol = line("enrol", false);
    ASSERT_TRUE(enrol);
    EXPECT_EQ(enrol->device_id(), enrolled.device_id());
    EXPECT_EQ(enrol->device_name(), "Head seat");
    EXPECT_EQ(enrol->detail(), "Head seat");
    EXPECT_EQ(database.run("select length(key) > 60 from device where name = 'Head seat'"), "t");
}

}  // namespace
}  // namespace courthand::server::testing
