// Planning matches on the stores in memory.
#include <gtest/gtest.h>

#include "record_kit.h"
#include "server/tournament/opening.h"
#include "wire/message_limits.h"

namespace courthand::server::desk {
namespace {

class PlanningTest : public testing::OnRecord {
  protected:
    void SetUp() override {
        teams = keep(testing::harbour_teams());
        wish.key = {tournament_, MatchId{new_uuid()}};
        wish.first = teams[0].id;
        wish.second = teams[1].id;
        wish.court = 2;
        wish.profile = "international-2025";
    }

    Status status() { return plan_match(planning(), wish).status(); }

    std::vector<Team> teams;
    MatchWish wish;
};

TEST_F(PlanningTest, TakesTeamsFormatAndProfile) {
    const auto plan = plan_match(planning(), wish);
    ASSERT_TRUE(plan.ok()) << plan.status().text();
    EXPECT_EQ(plan->first.name, "Harbour Lights");
    EXPECT_EQ(plan->second.colour, "b3541e");
    EXPECT_EQ(plan->number, 1U);
    EXPECT_EQ(plan->format.sets, 5);
    EXPECT_NE(plan->profile_hash, 0U);
    const auto courts = desk->courts();
    ASSERT_TRUE(courts.ok());
    ASSERT_EQ(courts->size(), 1U);
    EXPECT_EQ(courts->front().number, 2U);
}

TEST_F(PlanningTest, ARepeatedRequestMakesOneMatch) {
    ASSERT_TRUE(status().ok());
    EXPECT_TRUE(status().ok());
    EXPECT_EQ(matches.matches(tournament_)->size(), 1U);
    wish.second = teams[2].id;
    EXPECT_EQ(status().code, StatusCode::already_exists);
}

TEST_F(PlanningTest, AnUnknownProfileListsTheKnownOnes) {
    wish.profile = "international-1999";
    EXPECT_EQ(status().code, StatusCode::invalid);
    EXPECT_NE(status().cure.find("international-2025"), std::string::npos) << status().cure;
}

TEST_F(PlanningTest, ImpossibleWishesAreRefusedWithTheCure) {
    const MatchWish good = wish;
    const auto refused = [&](auto change) {
        wish = good;
        change(wish);
        const Status refusal = status();
        EXPECT_FALSE(refusal.ok());
        EXPECT_FALSE(refusal.cure.empty()) << refusal.message;
    };
    refused([](MatchWish& w) { w.second = w.first; });
    refused([](MatchWish& w) { w.second = TeamId{new_uuid()}; });
    refused([](MatchWish& w) { w.court = wire::most_courts + 1; });
    refused([](MatchWish& w) { w.key.match = {}; });
    refused([](MatchWish& w) { w.format = MatchFormat{.sets = 6}; });
    refused([](MatchWish& w) { w.format = MatchFormat{.sets = 4}; });
    refused([](MatchWish& w) { w.format = MatchFormat{.points = 0}; });
    EXPECT_TRUE(matches.matches(tournament_)->empty());
}

TEST_F(PlanningTest, AMatchMovesToAnotherCourt) {
    ASSERT_TRUE(status().ok());
    const auto moved = assign_court(planning(), wish.key, 7);
    ASSERT_TRUE(moved.ok()) << moved.status().text();
    EXPECT_EQ(matches.match(wish.key)->plan.court, 7U);
    EXPECT_EQ(assign_court(planning(), wish.key, wire::most_courts + 1).status().code,
              StatusCode::invalid);
    EXPECT_EQ(assign_court(planning(), {tournament_, MatchId{new_uuid()}}, 1).status().code,
              StatusCode::not_found);
}

TEST_F(PlanningTest, AListImportedAgainKeepsTheTeamsId) {
    Team again = teams[0];
    again.id = {};
    again.players.pop_back();
    const auto kept = desk->keep_teams(speaker, std::vector{again}, "new");
    ASSERT_TRUE(kept.ok());
    EXPECT_EQ(kept->front().id, teams[0].id);
    EXPECT_EQ(desk->team(teams[0].id)->players.size(), again.players.size());
}

TEST_F(PlanningTest, TheRecordHasTheMatchBeforeTheTablesHaveItsPlan) {
    wish.format = MatchFormat{.sets = 3};
    wish.profile = "us-domestic-2014";
    wish.scheduled_at = ServerTime{std::chrono::seconds{1'795'860'030}};
    ASSERT_TRUE(status().ok());
    const auto ref = state().find_match("1");
    ASSERT_TRUE(ref.has_value());
    const event::MatchState& match = state().match(*ref);
    EXPECT_EQ(match.record, tournament::record_id(wish.key.match));
    EXPECT_EQ(match.format.sets, 3);
    ASSERT_NE(match.profile, nullptr);
    EXPECT_EQ(match.profile->id, "us-domestic-2014");
    ASSERT_TRUE(match.placement.has_value());
    EXPECT_EQ(match.placement->court, 2);
    // Half a minute is less than the hall's clock tells; the plan keeps it.
    EXPECT_EQ(event::written(match.placement->at), "2026-11-28T10:00");
    look();
    EXPECT_EQ(plan("1").scheduled_at, wish.scheduled_at);
    EXPECT_EQ(plan("1").profile, "us-domestic-2014");
    EXPECT_EQ(matches.matches(tournament_)->size(), 1U);
}

TEST_F(PlanningTest, APlanThatWasNotMadeAnyMoreIsMadeByTheNextLook) {
    // The database went away between the two.
    wish.court = 0;
    matches.away = true;
    EXPECT_FALSE(status().ok());
    matches.away = false;
    EXPECT_TRUE(state().find_match("1").has_value());
    look();
    EXPECT_EQ(plan("1").first.id, wish.first);
    EXPECT_EQ(plan("1").court, 0U);
    EXPECT_TRUE(status().ok()) << "the repeated request finds it";
    EXPECT_EQ(matches.matches(tournament_)->size(), 1U);
}

TEST_F(PlanningTest, AnOpenerThatIsQuickerKeepsTheTimeAsItWasTold) {
    wish.scheduled_at = ServerTime{std::chrono::seconds{1'795'860'030}};
    matches.first_creates = [this] { look(); };
    ASSERT_TRUE(status().ok());
    EXPECT_EQ(matches.match(wish.key)->plan.scheduled_at, wish.scheduled_at);
    EXPECT_EQ(matches.matches(tournament_)->size(), 1U);
    look();
    EXPECT_EQ(plan("1").scheduled_at, wish.scheduled_at);
}

TEST_F(PlanningTest, TheSameWishAtTwoServersAtOnceIsOneMatchWhateverCameBetween) {
    tournament::RecordKeeper other{tournament_, facts};
    ASSERT_TRUE(other.catch_up().ok());
    // The other server has the same wish, and names that are taken since.
    facts.before_next_append = [&] {
        event::MatchAdded added;
        added.match = "by-hand";
        added.division = "open";
        added.first = {event::Source::Kind::team, teams[4].name, 0, {}};
        added.second = {event::Source::Kind::team, teams[5].name, 0, {}};
        tournament::Act act;
        act.author = "desk 2";
        act.seen = other.state()->last();
        act.facts.push_back({tournament::FactId{new_uuid()}, {added, ""}});
        (void)value_or_throw(other.act(act));
        (void)value_or_throw(plan_match({other, matches, speaker}, wish));
    };
    ASSERT_TRUE(status().ok());
    EXPECT_EQ(state().match_names.size(), 2U);
    EXPECT_EQ(matches.matches(tournament_)->size(), 1U);
    EXPECT_TRUE(state().findings.empty());
}

TEST_F(PlanningTest, AMatchLeavesItsCourtAndComesToAnother) {
    ASSERT_TRUE(status().ok());
    ASSERT_TRUE(assign_court(planning(), wish.key, 0).ok());
    EXPECT_FALSE(state().match(*state().find_match("1")).placement.has_value());
    look();
    EXPECT_EQ(plan("1").court, 0U);
    ASSERT_TRUE(assign_court(planning(), wish.key, 9).ok());
    EXPECT_EQ(state().match(*state().find_match("1")).placement->court, 9);
    const auto last = state().last();
    ASSERT_TRUE(assign_court(planning(), wish.key, 9).ok());
    EXPECT_EQ(state().last(), last) << "nothing is said twice";
}

TEST_F(PlanningTest, AMatchThatATableOpenedGoesToAnotherCourtAsBefore) {
    MatchPlan opened;
    opened.key = {tournament_, MatchId{new_uuid()}};
    opened.opened_at_table = true;
    opened.profile = "international-2025";
    (void)value_or_throw(matches.create_match(opened));
    ASSERT_TRUE(assign_court(planning(), opened.key, 5).ok());
    EXPECT_EQ(matches.match(opened.key)->plan.court, 5U);
    EXPECT_TRUE(state().courts.contains(5));
    look();
    EXPECT_EQ(matches.match(opened.key)->plan.court, 5U) << "the record does not name it";
}

TEST_F(PlanningTest, TeamsOfTwoDivisionsDoNotMeetInAMatchByHand) {
    event::DivisionOpened other;
    other.division = "U16";
    other.profile = "international-2025";
    other.chain = "international-2017";
    say({other, event::TeamEntered{"Ferry Road", "U16", ""}});
    wish.second = desk->teams()->front().id;
    ASSERT_EQ(desk->teams()->front().name, "Ferry Road");
    EXPECT_EQ(status().code, StatusCode::invalid);
    EXPECT_NE(status().message.find("another division"), std::string::npos) << status().message;
    EXPECT_TRUE(matches.matches(tournament_)->empty());
}

}  // namespace
}  // namespace courthand::server::desk
