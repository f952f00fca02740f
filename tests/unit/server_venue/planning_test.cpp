// Planning matches and the invented demo tournament, on the stores in memory.
#include <gtest/gtest.h>

#include "server/desk/demo_venue.h"
#include "server/desk/match_planning.h"
#include "server/store/memory_match_store.h"
#include "wire/message_limits.h"

namespace courthand::server::desk {
namespace {

class Planning : public ::testing::Test {
  protected:
    void SetUp() override {
        tournament = TournamentId{new_uuid()};
        ASSERT_TRUE(matches.create_tournament(tournament, demo_name).ok());
        auto kept = desk->keep_teams(demo_teams());
        ASSERT_TRUE(kept.ok());
        teams = *kept;
        wish.key = {tournament, MatchId{new_uuid()}};
        wish.first = teams[0].id;
        wish.second = teams[1].id;
        wish.court = 2;
        wish.profile = "international-2025";
    }

    Status status() { return plan_match(*desk, matches, wish).status(); }

    TournamentId tournament;
    MemoryMatchStore matches;
    std::unique_ptr<DeskStore> desk = make_memory_desk_store();
    std::vector<Team> teams;
    MatchWish wish;
};

TEST_F(Planning, TakesTeamsFormatAndProfile) {
    const auto plan = plan_match(*desk, matches, wish);
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

TEST_F(Planning, ARepeatedRequestMakesOneMatch) {
    ASSERT_TRUE(status().ok());
    EXPECT_TRUE(status().ok());
    EXPECT_EQ(matches.matches(tournament)->size(), 1U);
    wish.second = teams[2].id;
    EXPECT_EQ(status().code, StatusCode::already_exists);
}

TEST_F(Planning, AnUnknownProfileListsTheKnownOnes) {
    wish.profile = "international-1999";
    EXPECT_EQ(status().code, StatusCode::invalid);
    EXPECT_NE(status().cure.find("international-2025"), std::string::npos) << status().cure;
}

TEST_F(Planning, ImpossibleWishesAreRefusedWithTheCure) {
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
    EXPECT_TRUE(matches.matches(tournament)->empty());
}

TEST_F(Planning, AMatchMovesToAnotherCourt) {
    ASSERT_TRUE(status().ok());
    const auto moved = assign_court(*desk, matches, wish.key, 7);
    ASSERT_TRUE(moved.ok()) << moved.status().text();
    EXPECT_EQ(matches.match(wish.key)->plan.court, 7U);
    EXPECT_EQ(assign_court(*desk, matches, wish.key, wire::most_courts + 1).status().code,
              StatusCode::invalid);
    EXPECT_EQ(assign_court(*desk, matches, {tournament, MatchId{new_uuid()}}, 1).status().code,
              StatusCode::not_found);
}

TEST_F(Planning, AListImportedAgainKeepsTheTeamsId) {
    Team again = teams[0];
    again.id = {};
    again.players.pop_back();
    const auto kept = desk->keep_teams(std::vector{again});
    ASSERT_TRUE(kept.ok());
    EXPECT_EQ(kept->front().id, teams[0].id);
    EXPECT_EQ(desk->team(teams[0].id)->players.size(), again.players.size());
}

TEST_F(Planning, TheDemoVenueHasAMatchOnEveryCourtAndIsFilledOnce) {
    ASSERT_TRUE(fill_demo_venue(*desk, matches, tournament).ok());
    ASSERT_TRUE(fill_demo_venue(*desk, matches, tournament).ok());
    const auto planned = matches.matches(tournament);
    ASSERT_TRUE(planned.ok());
    ASSERT_EQ(planned->size(), demo_courts);
    EXPECT_EQ(desk->courts()->size(), demo_courts);
    const auto filled = desk->teams();
    EXPECT_EQ(filled->size(), 8U);
    for (const Team& team : *filled) EXPECT_EQ(team.players.size(), 12U) << team.name;
}

}  // namespace
}  // namespace courthand::server::desk
