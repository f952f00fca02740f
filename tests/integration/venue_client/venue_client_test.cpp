// Head and desk over TLS with a real server: a match is planned from a file, played with a fault,
// seen, claimed and ruled.
#include <gtest/gtest.h>

#include <algorithm>
#include <condition_variable>
#include <mutex>

#include "../server/test_client.h"
#include "client/sync/channel.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "venue/board_client.h"
#include "venue/desk_client.h"
#include "venue/match_id.h"
#include "wire/enrolment_code.h"

namespace courthand::venue {
namespace {

using server::auth::CourtNumber;
using server::testing::EnrolledDevice;
using server::testing::ServerOptions;
using server::testing::ServerProcess;
using server::testing::TestClient;
using server::testing::TestDatabase;
using server::testing::TestRecord;
using ServerSeat = server::auth::Seat;

constexpr std::chrono::seconds patience{30};

// The newest value that a source told, and a wait for one that fits.
template <class Value>
class Latest {
  public:
    void take(const Value& value) {
        {
            const std::scoped_lock lock{mutex_};
            value_ = value;
            ++count_;
        }
        news_.notify_all();
    }
    template <class Condition>
    [[nodiscard]] bool wait(Condition condition) {
        std::unique_lock guard{mutex_};
        return news_.wait_for(guard, patience, [&] { return count_ > 0 && condition(value_); });
    }
    [[nodiscard]] Value value() {
        const std::scoped_lock lock{mutex_};
        return value_;
    }

  private:
    std::mutex mutex_;
    std::condition_variable news_;
    Value value_{};
    int count_ = 0;
};

Jersey j(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

Roster roster(Team team, int first) {
    Roster roster;
    roster.team = team;
    roster.count = 12;
    for (std::size_t i = 0; i < 12; ++i) roster.players[i] = j(first + static_cast<int>(i));
    roster.captain = j(first);
    return roster;
}

LineUp line_up(Team team, int first) {
    LineUp sheet;
    sheet.team = team;
    for (std::size_t i = 0; i < players_on_court; ++i)
        sheet.order[i] = j(first + static_cast<int>(i));
    sheet.liberos[0] = {LiberoBox::Mark::number, j(first + 10)};
    sheet.liberos[1] = {LiberoBox::Mark::number, j(first + 11)};
    sheet.captain = j(first);
    return sheet;
}

// Libero 11 for 5, a rally, then 5 back and 12 for 6 in one dead ball: no completed rally between.
void play_until_fault(TestRecord& record) {
    MatchOpened opened;
    record.add(Fact{opened});
    record.add(Fact{roster(Team::A, 1)});
    record.add(Fact{roster(Team::B, 31)});
    record.add(Fact{Toss{Team::A, Team::A}});
    record.add(Fact{SetStarted{1}});
    record.add(Fact{line_up(Team::A, 1)});
    record.add(Fact{line_up(Team::B, 31)});
    record.add(Fact{LineUpChecked{Team::A}});
    record.add(Fact{LineUpChecked{Team::B}});
    record.add(Fact{LiberoReplacement{Team::A, j(11), j(5)}});
    record.add(Fact{Serve{}});
    record.add(Fact{RallyWon{Team::A}});
    record.add(Fact{LiberoReplacement{Team::A, j(5), j(11)}});
    record.add(Fact{LiberoReplacement{Team::A, j(12), j(6)}});
    record.add(Fact{Serve{}});
}

class VenueClientTest : public ::testing::Test {
  protected:
    [[nodiscard]] EnrolledDevice device(ServerSeat seat, CourtNumber court = 0) {
        return server::testing::enrol_device(database_.dsn(), server_.data(), seat, court);
    }
    [[nodiscard]] std::shared_ptr<grpc::Channel> channel(const EnrolledDevice& device) {
        return client::make_channel(server_.address(),
                                    {device.key_pem, device.certificate_pem, device.authority_pem});
    }
    [[nodiscard]] BoardSource::Listener board_listener() {
        return {[this](const Board& board) { board_.take(board); },
                [this](const Link& link) { link_.take(link); }};
    }
    // Plays on court 1 until an alert of the fault is on the board; its id.
    [[nodiscard]] std::string raise_alert() {
        TestClient table{server_.address(), device(ServerSeat::table, 1)};
        TestRecord record{server::testing::new_match_id(), table.device().id};
        play_until_fault(record);
        const v1::Match match = server::testing::test_match(record.match());
        EXPECT_TRUE(table.push(record, 1, record.size(), &match).status.ok());
        std::string id;
        EXPECT_TRUE(board_.wait([&](const Board& board) {
            for (const Alert& alert : board.alerts) {
                if (alert.code == "libero-no-completed-rally") id = alert.id;
            }
            return !id.empty();
        }));
        return id;
    }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
    Latest<Board> board_;
    Latest<Link> link_;
};

TEST_F(VenueClientTest, FaultIsSeenWithItsEvidenceClaimedAndRuled) {
    BoardClient head(channel(device(ServerSeat::head)), "Chief");
    head.start(board_listener());
    const std::string id = raise_alert();
    ASSERT_FALSE(id.empty());
    const Board board = board_.value();
    const CourtOnBoard* const court = board.court(1);
    ASSERT_NE(court, nullptr);
    EXPECT_EQ(court->stage, CourtStage::in_play);
    EXPECT_EQ(court->set, 1);
    EXPECT_EQ(court->score, (Score{1, 0}));
    EXPECT_NE(court->state_hash, 0u);
    const Alert& alert = *board.alert(id);
    EXPECT_EQ(alert.severity, Severity::critical);
    EXPECT_EQ(alert.team, Team::A);
    EXPECT_FALSE(alert.rule.empty());
    ASSERT_TRUE(alert.evidence.before && alert.evidence.after);
    EXPECT_NE(*alert.evidence.before, *alert.evidence.after);
    EXPECT_GE(alert.evidence.replacements.size(), 3u);
    ASSERT_FALSE(alert.evidence.entries.empty());
    EXPECT_TRUE(alert.evidence.entries.front().content.has_value());

    Latest<Outcome> answer;
    head.shelve(id, std::chrono::minutes(5), "later", [&](const Outcome& o) { answer.take(o); });
    ASSERT_TRUE(answer.wait([](const Outcome& outcome) { return !outcome.done; }));
    EXPECT_FALSE(answer.value().problem.empty());

    head.acknowledge(id, [&](const Outcome& outcome) { answer.take(outcome); });
    EXPECT_TRUE(board_.wait(
        [&](const Board& each) { return each.alert(id) != nullptr && each.alert(id)->seen; }));
    head.claim(id, [&](const Outcome& outcome) { answer.take(outcome); });
    EXPECT_TRUE(board_.wait([&](const Board& each) {
        return each.alert(id) != nullptr && each.alert(id)->claimed_by == "Chief";
    }));
    head.rule(id, RulingChoice::accept, "both captains told",
              [&](const Outcome& o) { answer.take(o); });
    EXPECT_TRUE(board_.wait([&](const Board& each) { return each.alert(id) == nullptr; }));
    head.stop();
}

TEST_F(VenueClientTest, SecondToClaimLearnsWhoWasFirst) {
    BoardClient head(channel(device(ServerSeat::head)), "Chief");
    head.start(board_listener());
    const std::string id = raise_alert();
    BoardClient deputy(channel(device(ServerSeat::head)), "Deputy");
    deputy.start({});
    Latest<Outcome> first;
    head.claim(id, [&](const Outcome& outcome) { first.take(outcome); });
    ASSERT_TRUE(first.wait([](const Outcome& outcome) { return outcome.done; }));
    Latest<Outcome> second;
    deputy.claim(id, [&](const Outcome& outcome) { second.take(outcome); });
    ASSERT_TRUE(second.wait([](const Outcome&) { return true; }));
    EXPECT_FALSE(second.value().done);
    EXPECT_NE(second.value().problem.find("Chief"), std::string::npos);
}

TEST_F(VenueClientTest, BoardComesBackAfterTheServerWasKilled) {
    BoardClient head(channel(device(ServerSeat::head)), "Chief");
    head.start(board_listener());
    const std::string id = raise_alert();
    server_.kill9();
    EXPECT_TRUE(link_.wait([](const Link& link) { return link.state == LinkState::lost; }));
    EXPECT_FALSE(board_.value().courts.empty());
    server_.start_again();
    EXPECT_TRUE(link_.wait([](const Link& link) { return link.state == LinkState::live; }))
        << link_.value().words;
    EXPECT_TRUE(board_.wait([&](const Board& board) { return board.alert(id) != nullptr; }));
}

TEST_F(VenueClientTest, TableDeviceMayNotReadTheBoard) {
    BoardClient table(channel(device(ServerSeat::table, 1)), "Table");
    table.start(board_listener());
    EXPECT_TRUE(link_.wait([](const Link& link) { return link.state == LinkState::refused; }));
    EXPECT_FALSE(link_.value().words.empty());
}

TEST_F(VenueClientTest, DeskPlansAMatchFromAFile) {
    DeskClient desk(channel(device(ServerSeat::desk)));
    Latest<DeskBook> book;
    desk.start({[&](const DeskBook& news) { book.take(news); }, {}});

    Latest<RosterReading> reading;
    const auto read = [&](const std::string& csv, bool keep) {
        desk.read_roster({csv, "teams.csv", {}}, keep,
                         [&](const RosterReading& each) { reading.take(each); });
    };
    read("team,number\nGull Rock,4\nGull Rock,1x\n", false);
    ASSERT_TRUE(reading.wait([](const auto& each) { return each.problem_count > 0; }));
    EXPECT_EQ(reading.value().problems[0].row, 3);
    EXPECT_EQ(reading.value().problems[0].column, "number");
    EXPECT_FALSE(reading.value().problems[0].cure.empty());

    read("team,number,captain\nGull Rock,4,yes\nGull Rock,7,\nSandbar,1,yes\nSandbar,2,\n", true);
    ASSERT_TRUE(reading.wait([](const auto& each) { return each.kept; }));
    ASSERT_TRUE(book.wait([](const DeskBook& each) { return each.teams.size() == 2; }));

    const auto teams = book.value().teams;
    Latest<Outcome> answer;
    const MatchWanted wanted{new_match_id(), teams[0].id, teams[1].id, 0, "international-2025"};
    desk.create_match(wanted, [&](const Outcome& outcome) { answer.take(outcome); });
    ASSERT_TRUE(answer.wait([](const Outcome&) { return true; }));
    EXPECT_TRUE(answer.value().done) << answer.value().problem;
    desk.create_match(wanted, [&](const Outcome& outcome) { answer.take(outcome); });
    desk.assign_court(wanted.match_id, 2, [&](const Outcome& outcome) { answer.take(outcome); });
    EXPECT_TRUE(book.wait([&](const DeskBook& each) {
        return each.matches.size() == 1 && each.matches[0].court == 2 &&
               each.matches[0].id == wanted.match_id;
    }));

    auto unknown = wanted;
    unknown.match_id = new_match_id();
    unknown.profile = "no-such-rules";
    Latest<Outcome> refused;
    desk.create_match(unknown, [&](const Outcome& outcome) { refused.take(outcome); });
    ASSERT_TRUE(refused.wait([](const Outcome& outcome) { return !outcome.done; }));
    EXPECT_NE(refused.value().problem.find("international-2025"), std::string::npos);
}

TEST_F(VenueClientTest, DeskIssuesACodeAndRevokesADevice) {
    DeskClient desk(channel(device(ServerSeat::desk)));
    const EnrolledDevice table = device(ServerSeat::table, 3);
    Latest<DeskBook> book;
    desk.start({[&](const DeskBook& news) { book.take(news); }, {}});
    Latest<CodeIssued> code;
    desk.issue_code(Seat::table, 3, [&](const CodeIssued& each) { code.take(each); });
    ASSERT_TRUE(code.wait([](const CodeIssued&) { return true; }));
    EXPECT_EQ(code.value().failed, "");
    const auto read = wire::EnrolmentCode::parse(code.value().text);
    EXPECT_TRUE(std::holds_alternative<wire::EnrolmentCode>(read)) << code.value().text;
    const auto on_court_3 = [](const DeviceListed& each) { return each.court == 3; };
    ASSERT_TRUE(book.wait([&](const DeskBook& each) {
        return std::any_of(each.devices.begin(), each.devices.end(), on_court_3);
    }));
    const auto devices = book.value().devices;
    const auto found = std::find_if(devices.begin(), devices.end(), on_court_3);
    Latest<Outcome> answer;
    desk.revoke_device(found->id, "lost", [&](const Outcome& outcome) { answer.take(outcome); });
    EXPECT_TRUE(book.wait([&](const DeskBook& each) {
        return std::any_of(each.devices.begin(), each.devices.end(),
                           [&](const DeviceListed& d) { return d.id == found->id && d.revoked; });
    }));
}

}  // namespace
}  // namespace courthand::venue
