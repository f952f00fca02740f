// From a match that the desk plans to a result that the desk confirms, in a whole venue.
#include "server/desk/match_planning.h"
#include "server/service/match_message.h"
#include "server/tournament/confirmable.h"
#include "server/tournament/opening.h"
#include "tests/testkit/harbour_teams.h"
#include "whole_venue.h"

namespace courthand::server::testing {
namespace {

constexpr const char* whole_match =
    "# common practice, no source: three sets without a point for the other team\n"
    "profile international-2025\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n"
    "toss serve A left A\n"
    "set 1\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n"
    "set 2\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n"
    "set 3\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n";

class ConfirmedResult : public WholeVenue {
  protected:
    void SetUp() override {
        start();
        const auto teams = value_or_throw(server().desk.keep_teams(speaker, harbour_teams(), ""));
        desk::MatchWish wish;
        wish.key = {stores.tournament().id, MatchId{Uuid{id.bytes()}}};
        wish.first = teams[0].id;
        wish.second = teams[1].id;
        wish.court = 1;
        wish.profile = "international-2025";
        (void)value_or_throw(desk::plan_match({server().record, stores.matches, speaker}, wish));
        match = wish.key.match;
    }
    [[nodiscard]] v1::Match message() {
        v1::Match out;
        server().keeper.read(match, [&](const LiveMatch& live) { service::to_message(live, out); });
        return out;
    }
    ::testing::AssertionResult becomes(v1::MatchStatus status) {
        return testkit::eventually([&] { return message().status() == status; });
    }
    void say(const event::Fact& fact) {
        const auto outcome = value_or_throw(server().record.act(act_of(fact)));
        ASSERT_EQ(outcome.fate, tournament::Outcome::Fate::kept);
    }
    tournament::Act act_of(const event::Fact& fact) {
        tournament::Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.seen = server().record.state()->last();
        act.whole = true;
        act.facts.push_back({tournament::FactId{new_uuid()}, {fact, ""}});
        return act;
    }
    /// What the desk reads now from the record of the table.
    event::ResultConfirmed read_result() {
        event::ResultConfirmed confirmed;
        confirmed.match = "1";
        confirmed.sets.assign(3, {25, 0});
        confirmed.record = tournament::record_id(match);
        server().keeper.read(match,
                             [&](const LiveMatch& live) { confirmed.head.bytes = live.head.hash; });
        return confirmed;
    }
    Status confirmable(const tournament::Act& act) {
        return tournament::confirmable(act, stores.tournament().id, server().record,
                                       stores.matches);
    }

    wire::Uuid id = new_match_id();
    MatchId match;
    tournament::Speaker speaker{DeviceId{new_uuid()}, "desk"};
};

TEST_F(ConfirmedResult, AFinishedMatchIsDoneForTheDeskOnceItsResultIsConfirmed) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    ASSERT_TRUE(all_appended(push(record_of(whole_match, id, table.device))));
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_FINISHED)) << "nobody has signed";
    say(read_result());
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_SIGNED));
    say(event::ResultReopened{"1"});
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_FINISHED));
}

TEST_F(ConfirmedResult, AResultThatTheTableHasWrittenSinceIsLookedAtAgain) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    TestRecord record = record_of(whole_match, id, table.device);
    const std::uint32_t whole = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_FINISHED));
    const tournament::Act of_before = act_of(read_result());
    EXPECT_TRUE(confirmable(of_before).ok());
    record.add_rallies(1);
    ASSERT_TRUE(all_appended(push(record, whole + 1)));
    const Status refused = confirmable(of_before);
    EXPECT_EQ(refused.code, StatusCode::conflict);
    EXPECT_NE(refused.message.find("the table has written since: look at the result again"),
              std::string::npos)
        << refused.message;
    ASSERT_TRUE(testkit::eventually([&] { return confirmable(act_of(read_result())).ok(); }));

    // Sent again, after it was kept and the table wrote once more: it stands.
    const tournament::Act kept = act_of(read_result());
    ASSERT_EQ(value_or_throw(server().record.act(kept)).fate, tournament::Outcome::Fate::kept);
    record.add_rallies(1);
    ASSERT_TRUE(all_appended(push(record, whole + 3)));
    EXPECT_TRUE(confirmable(kept).ok());
    EXPECT_FALSE(confirmable(of_before).ok());
    event::ResultConfirmed from_paper = read_result();
    from_paper.from = event::ResultFrom::paper;
    from_paper.head = {};
    EXPECT_TRUE(confirmable(act_of(from_paper)).ok());
}

TEST_F(ConfirmedResult, AResultFromPaperTakesTheMatchOffItsCourt) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    EXPECT_EQ(server().keeper.on_court(1), std::vector{match});
    event::ResultConfirmed confirmed;
    confirmed.match = "1";
    confirmed.from = event::ResultFrom::paper;
    confirmed.sets.assign(3, {25, 18});
    say(confirmed);
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_SIGNED));
    EXPECT_TRUE(server().keeper.on_court(1).empty());
}

TEST_F(ConfirmedResult, AMatchThatIsPlacedComesToItsCourtByItself) {
    event::MatchAdded added;
    added.match = "X1";
    added.division = "open";
    added.first = {event::Source::Kind::team, "Quayside", 0, {}};
    added.second = {event::Source::Kind::team, "Saltmarsh", 0, {}};
    say(added);
    say(event::CourtOpened{3, "", {}, {}, {}});
    event::MatchPlaced placed;
    placed.match = "X1";
    placed.court = 3;
    say(placed);
    EXPECT_TRUE(testkit::eventually([&] { return server().keeper.on_court(3).size() == 1; }));
    EXPECT_TRUE(testkit::eventually([&] { return keeper().board().card(3).has_value(); }))
        << "the board has the court of the record";
}

}  // namespace
}  // namespace courthand::server::testing
