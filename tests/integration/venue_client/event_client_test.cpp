// The tournament's record at desk and head seats, over TLS with a real server and PostgreSQL: the
// promises of every source, lost answers, restarts, and who may do what.
#include "venue/event_client.h"

#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <atomic>

#include "courthand/v1/tournament_service.grpc.pb.h"
#include "event_kit.h"
#include "event_source_contract.h"
#include "server/testing/forwarder.h"
#include "venue/event_message.h"
#include "venue/venue_call.h"

namespace courthand::venue {
namespace {

using namespace testing;
using server::auth::Seat;
using server::testing::enrol_device;
using server::testing::Forwarder;

class NetworkTwin final : public EventTwin {
  public:
    EventSource& source() override { return client_; }
    void others_say(const std::vector<event::Said>& facts) override {
        const auto last = static_cast<event::FactNumber>(
            std::stoul(database_.run("select count(*) from tournament_fact")));
        grpc::ClientContext context;
        sign_call(context);
        v1::ActResponse response;
        const auto status =
            others_->Act(&context, act_request(new_act(last, facts), "desk 2", false), &response);
        ASSERT_TRUE(status.ok()) << status.error_message();
        ASSERT_EQ(response.fate(), v1::ActResponse::FATE_KEPT);
    }

  private:
    [[nodiscard]] std::shared_ptr<grpc::Channel> desk() const {
        return channel_of(enrol_device(database_.dsn(), server_.data(), Seat::desk),
                          server_.address());
    }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
    std::unique_ptr<v1::Tournament::Stub> others_ = v1::Tournament::NewStub(desk());
    EventClient client_{desk(), "desk 1"};
};

class EventClientTest : public ::testing::Test {
  protected:
    [[nodiscard]] EnrolledDevice device(Seat seat, std::uint32_t court = 0) {
        return enrol_device(database_.dsn(), server_.data(), seat, court);
    }
    [[nodiscard]] std::shared_ptr<grpc::Channel> channel(Seat seat, std::uint32_t court = 0) {
        return channel_of(device(seat, court), server_.address());
    }
    [[nodiscard]] std::string facts_kept() const {
        return database_.run("select count(*) from tournament_fact");
    }

    TestDatabase database_;
    ServerProcess server_{ServerOptions{database_.dsn(), {}, 0, {}}};
};

// The act is kept, its answer is cut off on the way, and it is asked again with its ids.
TEST_F(EventClientTest, AnActWhoseAnswerWasLostIsKeptOnce) {
    std::atomic<bool> armed{false};
    const Forwarder bad_line{"127.0.0.1", server_.port(), [&] {
                                 if (!armed || facts_kept() == "0") return true;
                                 armed = false;
                                 return false;
                             }};
    EventSeat desk{channel_of(device(Seat::desk), bad_line.address()), "desk 1"};
    ASSERT_TRUE(desk.comes_to(0));
    armed = true;
    const ActOutcome outcome = desk.act(new_act(0, {court(1), court(2)}));
    EXPECT_EQ(outcome.fate, ActOutcome::Fate::had) << outcome.problem;
    EXPECT_EQ(bad_line.cuts(), 1u);
    EXPECT_EQ(facts_kept(), "2");
    EXPECT_TRUE(desk.comes_to(2));
}

TEST_F(EventClientTest, TheWatchGoesOnAfterTheServerWasKilledAndAnActWaitsForIt) {
    EventSeat desk{channel(Seat::desk), "desk 1"};
    EventSeat other{channel(Seat::desk), "desk 2"};
    ASSERT_TRUE(desk.comes_to(0));
    ASSERT_EQ(desk.act(new_act(0, {court(1)})).fate, ActOutcome::Fate::kept);
    ASSERT_TRUE(desk.comes_to(1));
    ASSERT_TRUE(other.comes_to(1));
    server_.kill9();
    ASSERT_TRUE(desk.link_is(LinkState::lost));
    EXPECT_EQ(desk.book().state->last(), 1u) << "the last book stays";
    server_.start_again();
    ASSERT_TRUE(desk.link_is(LinkState::live)) << desk.link().words;
    ASSERT_TRUE(other.link_is(LinkState::live));
    EXPECT_EQ(other.act(new_act(1, {court(2)})).fate, ActOutcome::Fate::kept);
    EXPECT_TRUE(desk.comes_to(2));
    EXPECT_TRUE(other.comes_to(2));
}

TEST_F(EventClientTest, AServerThatIsAwayIsSaidAndNothingWasKept) {
    EventSeat desk{channel(Seat::desk), "desk 1"};
    ASSERT_TRUE(desk.comes_to(0));
    server_.kill9();
    ASSERT_TRUE(desk.link_is(LinkState::lost));
    const ActOutcome outcome = desk.act(new_act(0, {court(1)}));
    EXPECT_EQ(outcome.fate, ActOutcome::Fate::failed);
    EXPECT_NE(outcome.problem.find("Nothing was sent"), std::string::npos) << outcome.problem;
}

TEST_F(EventClientTest, AHeadSeatWatchesWithoutNamesAndMayNotAct) {
    EventSeat desk{channel(Seat::desk), "desk 1"};
    EventSeat head{channel(Seat::head), "Head official"};
    event::PersonListed person;
    person.person = 1;
    ASSERT_TRUE(desk.comes_to(0));
    ASSERT_EQ(desk.act(new_act(0, {{person, "Anna Example"}, court(1)})).fate,
              ActOutcome::Fate::kept);
    ASSERT_TRUE(desk.comes_to(2));
    EXPECT_EQ(desk.book().words->at(1), "Anna Example");
    ASSERT_TRUE(head.comes_to(2));
    EXPECT_TRUE(head.book().words->empty());
    EXPECT_EQ(*head.book().state, *desk.book().state);

    const ActOutcome outcome = head.act(new_act(2, {court(2)}));
    EXPECT_EQ(outcome.fate, ActOutcome::Fate::failed);
    EXPECT_NE(outcome.problem.find("may not do this"), std::string::npos) << outcome.problem;
    EXPECT_EQ(facts_kept(), "2");
}

TEST_F(EventClientTest, ATableMayNotEvenWatch) {
    EventSeat table{channel(Seat::table, 1), "table 1"};
    ASSERT_TRUE(table.link_is(LinkState::refused));
    EXPECT_FALSE(table.link().words.empty());
    EXPECT_EQ(table.act(new_act(0, {court(1)})).fate, ActOutcome::Fate::failed);
    EXPECT_EQ(facts_kept(), "0");
}

TEST_F(EventClientTest, ARecordThatWasChangedInTheDatabaseIsARefusedLinkWithWords) {
    {
        EventSeat desk{channel(Seat::desk), "desk 1"};
        ASSERT_TRUE(desk.comes_to(0));
        ASSERT_EQ(desk.act(new_act(0, {court(1), court(2), court(3)})).fate,
                  ActOutcome::Fate::kept);
    }
    // The author of the second fact is another one.
    database_.run(
        "update tournament_fact set bytes = overlay(bytes placing '\\x64656b73' from "
        "position('\\x6465736b'::bytea in bytes) for 4) where number = 2");
    EventSeat desk{channel(Seat::desk), "desk 1"};
    ASSERT_TRUE(desk.link_is(LinkState::refused));
    EXPECT_NE(desk.link().words.find("fact 3"), std::string::npos) << desk.link().words;
    EXPECT_FALSE(desk.book().whole);
    EXPECT_EQ(desk.book().state->last(), 2u);
}

TEST_F(EventClientTest, ADatabaseThatWasPutBackIsShownAsItIsNow) {
    EventSeat desk{channel(Seat::desk), "desk 1"};
    ASSERT_TRUE(desk.comes_to(0));
    ASSERT_EQ(desk.act(new_act(0, {court(1), {event::NoteWritten{}, "Kept."}})).fate,
              ActOutcome::Fate::kept);
    const std::string head = database_.run("select feed_head from tournament");
    ASSERT_EQ(desk.act(new_act(2, {court(2), {event::NoteWritten{}, "Lost."}})).fate,
              ActOutcome::Fate::kept);
    ASSERT_TRUE(desk.comes_to(4));
    database_.run(
        "begin; delete from tournament_fact where number > 2; delete from feed where "
        "position > " +
        head + "; update tournament set feed_head = " + head + "; commit");
    ASSERT_TRUE(desk.comes_to(2));
    EXPECT_EQ(*desk.book().words, (EventBook::Words{{2, "Kept."}}));
    // And it is acted in; what is thought to come after the lost facts is not.
    EXPECT_EQ(desk.act(new_act(4, {court(3)})).fate, ActOutcome::Fate::failed);
    EXPECT_EQ(desk.act(new_act(2, {court(3)})).fate, ActOutcome::Fate::kept);
    ASSERT_TRUE(desk.comes_to(3));
    server_.wait_for_log("event=feed-went-back");
}

TEST_F(EventClientTest, AnotherServerOnTheDatabaseHasFactsAndErasedWords) {
    const auto second = server::testing::second_server(server_);
    EventSeat here{channel(Seat::desk), "desk 1"};
    EventSeat there{channel_of(device(Seat::desk), second->address()), "desk 2"};
    ASSERT_TRUE(here.comes_to(0));
    ASSERT_TRUE(there.comes_to(0));
    ASSERT_EQ(here.act(new_act(0, {{event::NoteWritten{}, "Of desk 1."}})).fate,
              ActOutcome::Fate::kept);
    ASSERT_TRUE(there.comes_to(1));
    ASSERT_EQ(there.act(new_act(1, {{event::NoteWritten{}, "Of desk 2."}})).fate,
              ActOutcome::Fate::kept);
    ASSERT_TRUE(here.comes_to(2));
    there.client().erase_words({1}, [](const Outcome&) {});
    const auto erased = [](const EventBook& book) {
        return *book.words == EventBook::Words{{2, "Of desk 2."}};
    };
    EXPECT_TRUE(there.sees(erased));
    EXPECT_TRUE(here.sees(erased));
    // Who was away when they were erased does not keep them.
    server_.kill9();
    ASSERT_TRUE(here.link_is(LinkState::lost));
    there.client().erase_words({2}, [](const Outcome&) {});
    ASSERT_TRUE(there.sees([](const EventBook& book) { return book.words->empty(); }));
    EXPECT_EQ(here.book().words->size(), 1u);
    server_.start_again();
    EXPECT_TRUE(here.sees([](const EventBook& book) { return book.words->empty(); }));
}

}  // namespace

std::unique_ptr<EventTwin> make_event_twin() {
    return std::make_unique<NetworkTwin>();
}

}  // namespace courthand::venue
