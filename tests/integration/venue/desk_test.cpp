// The desk's calls: lists in, matches planned, results out; and every fault told by its place.
#include <gtest/gtest.h>

#include <limits>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/store/match_store.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

constexpr const char* two_teams =
    "team;number;captain;libero\n"
    "Quayside;1;x;\nQuayside;2;;\nQuayside;3;;x\n"
    "\"Salt;marsh\";4;x;\n\"Salt;marsh\";5;;\n";

class DeskTest : public ::testing::Test {
  protected:
    v1::ImportRosterResponse import(const std::string& csv, bool dry_run = false,
                                    const std::string& reason = "") {
        v1::ImportRosterRequest request;
        request.set_csv(csv);
        request.set_reason(reason);
        request.set_dry_run(dry_run);
        v1::ImportRosterResponse response;
        const auto status = call(*desk.desk, &v1::Desk::Stub::ImportRoster, request, response);
        EXPECT_TRUE(status.ok()) << status.error_message();
        return response;
    }
    int teams_kept() {
        v1::ListTeamsResponse response;
        EXPECT_TRUE(
            call(*desk.desk, &v1::Desk::Stub::ListTeams, v1::ListTeamsRequest{}, response).ok());
        return response.teams_size();
    }
    v1::CreateMatchRequest wish(const v1::ImportRosterResponse& teams) {
        v1::CreateMatchRequest request;
        request.set_first_team_id(teams.teams(0).team_id());
        request.set_second_team_id(teams.teams(1).team_id());
        request.set_court(4);
        request.set_profile_id("international-2025");
        request.set_match_id(new_match_id().to_bytes());
        return request;
    }
    grpc::Status create(const v1::CreateMatchRequest& request, v1::CreateMatchResponse& response) {
        return call(*desk.desk, &v1::Desk::Stub::CreateMatch, request, response);
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device desk = Device::at(server, auth::Seat::desk);
};

TEST_F(DeskTest, AListIsCheckedWithoutBeingKeptAndThenKept) {
    const auto checked = import(two_teams, true);
    EXPECT_EQ(checked.error_count(), 0U);
    EXPECT_FALSE(checked.kept());
    EXPECT_EQ(checked.teams_size(), 2);
    EXPECT_EQ(teams_kept(), 0);
    const auto kept = import(two_teams);
    EXPECT_TRUE(kept.kept());
    EXPECT_EQ(kept.teams(1).name(), "Salt;marsh");
    EXPECT_TRUE(kept.teams(0).players(2).libero());
    const auto again = import(two_teams);
    EXPECT_EQ(again.teams(0).team_id(), kept.teams(0).team_id());
    EXPECT_EQ(teams_kept(), 2);
}

TEST_F(DeskTest, AFrozenListChangesForAReasonOnly) {
    ASSERT_TRUE(import(two_teams).kept());
    const std::string changed = "team,number\nQuayside,1\nQuayside,8\n";
    for (const bool dry_run : {true, false}) {
        const auto refused = import(changed, dry_run);
        EXPECT_FALSE(refused.kept());
        ASSERT_EQ(refused.errors_size(), 1);
        EXPECT_NE(refused.errors(0).message().find("Quayside: its list is frozen"),
                  std::string::npos)
            << refused.errors(0).message();
        EXPECT_NE(refused.errors(0).cure().find("reason"), std::string::npos);
    }
    EXPECT_EQ(import(changed, true, "two are ill").error_count(), 0U);
    EXPECT_TRUE(import(changed, false, "two are ill").kept());

    // Likewise when it is said as a fact.
    v1::ActRequest act;
    act.set_author("desk 1");
    v1::ActFact& fact = *act.add_facts();
    fact.set_fact_id(new_match_id().to_bytes());
    v1::RosterFrozen& frozen = *fact.mutable_fact()->mutable_roster_frozen();
    frozen.set_team("Quayside");
    frozen.add_numbers(1);
    v1::ActResponse answer;
    act.set_seen(static_cast<std::uint32_t>(
        std::stoul(database.run("select max(number) from tournament_fact"))));
    const auto refused = call(*desk.tournament, &v1::Tournament::Stub::Act, act, answer);
    EXPECT_EQ(refused.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(refused.error_message().find("Quayside: its list is frozen"), std::string::npos)
        << refused.error_message();
    act.mutable_facts(0)->set_words("number 8 went home");
    ASSERT_TRUE(call(*desk.tournament, &v1::Tournament::Stub::Act, act, answer).ok());
    EXPECT_EQ(answer.fate(), v1::ActResponse::FATE_KEPT);
    EXPECT_EQ(database.run("select count(*) from tournament_fact where words is not null"), "2");
}

TEST_F(DeskTest, ATimeZoneThatComesLateDoesNotMovePlannedTimes) {
    constexpr std::int64_t ten_utc = 1'795'773'600'000'000;
    v1::CreateMatchRequest timed = wish(import(two_teams));
    timed.set_scheduled_us(ten_utc);
    v1::CreateMatchResponse created;
    ASSERT_TRUE(create(timed, created).ok());
    const auto open_in = [&](const std::string& zone) {
        v1::ActRequest act;
        act.set_author("desk 1");
        act.set_seen(static_cast<std::uint32_t>(
            std::stoul(database.run("select max(number) from tournament_fact"))));
        v1::ActFact& fact = *act.add_facts();
        fact.set_fact_id(new_match_id().to_bytes());
        v1::TournamentOpened& opened = *fact.mutable_fact()->mutable_tournament_opened();
        opened.set_name("Harbour Cup");
        opened.set_first_day(20'784);
        opened.set_last_day(20'785);
        opened.set_time_zone(zone);
        v1::ActResponse answer;
        return call(*desk.tournament, &v1::Tournament::Stub::Act, act, answer);
    };
    const auto refused = open_in("Europe/Athens");
    EXPECT_EQ(refused.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(refused.error_message().find("before it had a time zone"), std::string::npos)
        << refused.error_message();
    ASSERT_TRUE(open_in("UTC").ok());
    v1::ListMatchesResponse matches;
    ASSERT_TRUE(
        call(*desk.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches).ok());
    ASSERT_EQ(matches.matches_size(), 1);
    EXPECT_EQ(matches.matches(0).scheduled_us(), ten_utc);
}

TEST_F(DeskTest, AFaultyListNamesRowAndColumnAndKeepsNothing) {
    const auto response = import("team,number\nQuayside,1\nQuayside,seven\nQuayside,1\n,9\n");
    EXPECT_FALSE(response.kept());
    ASSERT_EQ(response.error_count(), 3U);
    EXPECT_EQ(response.errors(0).row(), 3U);
    EXPECT_EQ(response.errors(0).column(), "number");
    EXPECT_NE(response.errors(0).message().find("seven"), std::string::npos);
    EXPECT_FALSE(response.errors(0).cure().empty());
    EXPECT_EQ(response.errors(1).row(), 4U);
    EXPECT_EQ(response.errors(2).column(), "team");
    EXPECT_EQ(teams_kept(), 0);
}

TEST_F(DeskTest, ManyFaultsAreCountedAndTheFirstHundredListed) {
    std::string csv = "team,number\n";
    for (int i = 0; i < 150; ++i) csv += "Quayside,none\n";
    const auto response = import(csv);
    EXPECT_EQ(response.error_count(), 150U);
    EXPECT_EQ(response.errors_size(), 100);
}

TEST_F(DeskTest, ATimeThatNoCalendarHasIsRefused) {
    auto request = wish(import(two_teams));
    v1::CreateMatchResponse created;
    for (const std::int64_t never : {std::numeric_limits<std::int64_t>::min(), std::int64_t{-1},
                                     std::numeric_limits<std::int64_t>::max()}) {
        request.set_scheduled_us(never);
        EXPECT_EQ(create(request, created).error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    }
}

TEST_F(DeskTest, AMatchOfTwoTeamsReachesItsCourt) {
    const auto teams = import(two_teams);
    v1::CreateMatchResponse created;
    const auto request = wish(teams);
    const auto status = create(request, created);
    ASSERT_TRUE(status.ok()) << status.error_message();
    EXPECT_EQ(created.match().number(), 1U);
    EXPECT_EQ(created.match().status(), v1::MATCH_STATUS_SCHEDULED);
    ASSERT_TRUE(create(request, created).ok()) << "a repeated request makes one match";
    EXPECT_EQ(created.match().number(), 1U);

    Device table = Device::at(server, auth::Seat::table, 4);
    Device head = Device::at(server, auth::Seat::head);
    BoardWatch board{head};
    ASSERT_TRUE(board.until([](const BoardWatch& watch) {
        return watch.card(4) && watch.card(4)->match_number() == 1;
    }));
    EXPECT_EQ(board.card(4)->a().name(), "Quayside");

    v1::FetchMatchRequest fetch;
    fetch.set_court(4);
    v1::FetchMatchResponse fetched;
    ASSERT_TRUE(call(*table.sync, &v1::Sync::Stub::FetchMatch, fetch, fetched).ok());
    EXPECT_EQ(fetched.match().match_id(), request.match_id());
    EXPECT_EQ(fetched.first_roster().players_size(), 3);
    EXPECT_EQ(fetched.second_roster().name(), "Salt;marsh");

    v1::AssignCourtRequest move;
    move.set_match_id(request.match_id());
    move.set_court(7);
    v1::AssignCourtResponse moved;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::AssignCourt, move, moved).ok());
    EXPECT_EQ(moved.match().court(), 7U);
    ASSERT_TRUE(board.until([&](const BoardWatch& watch) {
        return watch.card(7) && watch.card(7)->match_id() == request.match_id() && watch.card(4) &&
               watch.card(4)->match_id().empty();
    }));

    v1::ListCourtsResponse courts;
    ASSERT_TRUE(
        call(*desk.desk, &v1::Desk::Stub::ListCourts, v1::ListCourtsRequest{}, courts).ok());
    ASSERT_EQ(courts.courts_size(), 2);
    EXPECT_EQ(courts.courts(1).current().match_id(), request.match_id());
    EXPECT_EQ(courts.courts(0).device_id(), to_bytes(table.enrolled.id.value));
}

TEST_F(DeskTest, ImpossibleMatchesAreRefusedWithTheCure) {
    const auto teams = import(two_teams);
    v1::CreateMatchResponse created;
    auto request = wish(teams);
    request.set_profile_id("international-1999");
    auto status = create(request, created);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(status.error_message().find("international-2025"), std::string::npos)
        << status.error_message();
    request = wish(teams);
    request.set_second_team_id(request.first_team_id());
    EXPECT_EQ(create(request, created).error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    request = wish(teams);
    request.set_first_team_id(new_match_id().to_bytes());
    EXPECT_EQ(create(request, created).error_code(), grpc::StatusCode::NOT_FOUND);
    request = wish(teams);
    request.set_match_id("short");
    EXPECT_EQ(create(request, created).error_code(), grpc::StatusCode::INVALID_ARGUMENT);
}

TEST_F(DeskTest, BeyondTheLimitOfMatchesTheCureIsTold) {
    const auto teams = import(two_teams);
    v1::CreateMatchResponse created;
    ASSERT_TRUE(create(wish(teams), created).ok());
    database.run("insert into match select copy.* from match m, generate_series(2, " +
                 std::to_string(most_matches) +
                 ") n, lateral jsonb_populate_record(m, jsonb_build_object('match_id', "
                 "gen_random_uuid(), 'court', 0, 'number', n)) copy");
    server.kill9();
    server.start_again();
    desk = Device{server, desk.enrolled};
    const auto status = create(wish(teams), created);
    EXPECT_EQ(status.error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED) << status.error_message();
    EXPECT_NE(status.error_message().find("new tournament"), std::string::npos);
}

TEST_F(DeskTest, ResultsFollowTheRecord) {
    Device table = Device::at(server, auth::Seat::table, 1);
    const wire::Uuid match = new_match_id();
    const v1::Match opened = test_match(match, 1);
    const std::string script =
        "# common practice, no source: one set and a half\n"
        "profile international-2025\n"
        "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
        "team B \"Mill Lane\" players 31-38 41 captain 33\n"
        "toss serve A left A\nset 1\n"
        "lineup A 1 2 3 4 5 6 liberos 21 22\n"
        "lineup B 31 32 33 34 35 36 liberos 41 none\n"
        "checked A\nchecked B\nplay A25\nset 2\n"
        "lineup A 1 2 3 4 5 6 liberos 21 22\n"
        "lineup B 31 32 33 34 35 36 liberos 41 none\n"
        "checked A\nchecked B\nplay B2\n";
    push_all(table, record_of(script, match, table.enrolled.id), &opened);
    v1::ListResultsResponse results;
    // The answer follows the commit by a moment: ask until the match is folded.
    for (int i = 0; i < 2000; ++i) {
        ASSERT_TRUE(
            call(*desk.desk, &v1::Desk::Stub::ListResults, v1::ListResultsRequest{}, results).ok());
        if (results.results_size() == 1 && results.results(0).set_scores_size() == 2 &&
            results.results(0).set_scores(1).b() == 2)
            break;
    }
    ASSERT_EQ(results.results_size(), 1);
    const v1::MatchResult& result = results.results(0);
    EXPECT_EQ(result.sets().a(), 1U);
    ASSERT_EQ(result.set_scores_size(), 2);
    EXPECT_EQ(result.set_scores(0).a(), 25U);
    EXPECT_EQ(result.set_scores(1).b(), 2U);
    EXPECT_EQ(result.winner(), v1::TEAM_LETTER_UNSPECIFIED);
    EXPECT_EQ(result.match().status(), v1::MATCH_STATUS_IN_PLAY);
}

TEST_F(DeskTest, ACourtNamesTheTableThatWritesItsMatchNotTheNewestOne) {
    const auto teams = import(two_teams);
    v1::CreateMatchResponse created;
    const auto request = wish(teams);
    ASSERT_TRUE(create(request, created).ok());
    Device table = Device::at(server, auth::Seat::table, 4);
    const auto named = [&] {
        v1::ListCourtsResponse courts;
        EXPECT_TRUE(
            call(*desk.desk, &v1::Desk::Stub::ListCourts, v1::ListCourtsRequest{}, courts).ok());
        return courts.courts_size() == 0 ? std::string{} : courts.courts(0).device_id();
    };
    v1::GrantWriterRequest grant;
    grant.set_match_id(request.match_id());
    v1::GrantWriterResponse granted;
    ASSERT_TRUE(call(*table.sync, &v1::Sync::Stub::GrantWriter, grant, granted).ok());
    Device spare = Device::at(server, auth::Seat::table, 4);
    for (int i = 0; i < 2000 && named() != to_bytes(table.enrolled.id.value); ++i) {
    }
    EXPECT_EQ(named(), to_bytes(table.enrolled.id.value)) << "it writes";

    v1::RevokeDeviceRequest lost;
    lost.set_device_id(to_bytes(table.enrolled.id.value));
    v1::RevokeDeviceResponse withdrawn;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, lost, withdrawn).ok());
    EXPECT_EQ(named(), to_bytes(spare.enrolled.id.value)) << "it is to go on";
}

TEST_F(DeskTest, AnEventIsOpenedOnceAlsoAfterARestart) {
    TestDatabase event_database;
    ServerProcess venue{{event_database.dsn(), {}, 0, {"--event", COURTHAND_FOUR_COURTS}}};
    Device event_desk = Device::at(venue, auth::Seat::desk);
    const auto count = [&] {
        v1::ListMatchesResponse matches;
        EXPECT_TRUE(
            call(*event_desk.desk, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{}, matches)
                .ok());
        return matches.matches_size();
    };
    ASSERT_TRUE(testkit::eventually([&] { return count() == 4; }));
    const std::string facts = "select count(*) from tournament_fact";
    const std::string before = event_database.run(facts);
    venue.kill9();
    venue.start_again();
    event_desk = Device{venue, event_desk.enrolled};
    EXPECT_EQ(count(), 4);
    EXPECT_EQ(event_database.run(facts), before);
}

}  // namespace
}  // namespace courthand::server::testing
