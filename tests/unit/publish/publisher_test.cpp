// The record and the board on the one side, pages on the other.
#include "server/publish/publisher.h"

#include <gmock/gmock.h>

#include <fstream>

#include "hall_of.h"
#include "server/desk/event_opening.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "tests/testkit/scratch_folder.h"
#include "web_client.h"

namespace courthand::server::publish {
namespace {

using server::throw_if_failed;
using server::value_or_throw;
using testing::answer;
using ::testing::HasSubstr;

class Publishing : public ::testing::Test {
  protected:
    void open(const std::string& script) {
        throw_if_failed(desk::open_event(
            record, tournament, value_or_throw(desk::read_event_script(script, "a.event"))));
    }
    void put_score(std::uint32_t a, std::uint32_t b) {
        v1::CourtCard card;
        card.set_court(2);
        card.set_match_id("one");
        card.set_match_name("B1");
        card.mutable_a()->set_name("Mill Lane");
        card.mutable_b()->set_name("Quayside");
        card.set_set(1);
        card.mutable_score()->set_a(a);
        card.mutable_score()->set_b(b);
        board.put(card);
        board.tell();
    }

    MemoryMatchStore matches;
    TournamentId tournament =
        value_or_throw(matches.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
    tournament::MemoryFactStore facts{matches};
    tournament::RecordKeeper record{tournament, facts};
    venue::Board board;
    testkit::ScratchFolder scratch;
};

TEST_F(Publishing, ThePagesFollowTheRecordAndTheBoard) {
    Publisher::Ways ways;
    ways.door = value_or_throw(WebDoor::open("127.0.0.1:0"));
    ways.folder.emplace(scratch.path() / "site");
    Publisher publisher{{tournament, record, board}, std::move(ways), [](const Status&) {}};
    const std::uint16_t port = publisher.door()->port();
    ASSERT_TRUE(testkit::eventually(
        [&] { return answer(port, "/").find("No court is open yet") != std::string::npos; }));

    open(testing::planned_cup());
    EXPECT_TRUE(testkit::eventually(
        [&] { return answer(port, "/pools.html").find("50-42") != std::string::npos; }));
    testing::WebClient reader{port};
    reader.ask("/news?page=index.html&stamp=none");
    reader.until("event: anew");
    // The card of a court that had none makes the page anew; the next one is a piece of it.
    put_score(12, 9);
    ASSERT_TRUE(testkit::eventually(
        [&] { return answer(port, "/").find("<td>12</td>") != std::string::npos; }));
    put_score(13, 9);
    EXPECT_THAT(reader.until("<td>13</td>"), HasSubstr("<td>13</td>"));
    EXPECT_TRUE(testkit::eventually([&] {
        std::ifstream in{scratch.path() / "site/index.html"};
        return std::string{std::istreambuf_iterator<char>{in}, {}}.find("<td>13</td>") !=
               std::string::npos;
    }));
}

TEST_F(Publishing, AFolderThatCannotBeWrittenIsToldOnceAndThePagesAreServed) {
    std::ofstream{scratch.path() / "a-file"} << "x";
    Publisher::Ways ways;
    ways.door = value_or_throw(WebDoor::open("127.0.0.1:0"));
    ways.folder.emplace(scratch.path() / "a-file");
    std::atomic<int> told = 0;
    Publisher publisher{
        {tournament, record, board}, std::move(ways), [&](const Status&) { ++told; }};
    open(testing::planned_cup());
    EXPECT_TRUE(testkit::eventually([&] {
        return answer(publisher.door()->port(), "/pools.html").find("50-42") != std::string::npos;
    }));
    EXPECT_EQ(told, 1);
}

}  // namespace
}  // namespace courthand::server::publish
