// What a table has recorded of a match: joined by its record, and only of the teams that play it.
#include "venue/table_results.h"

#include <gtest/gtest.h>

#include "tests/unit/event/event_of.h"

namespace courthand::venue {
namespace {

using event::SetScore;

class TableResultsTest : public ::testing::Test {
  protected:
    static DeskBook book(const std::string& first, const std::string& second) {
        DeskBook book;
        MatchPlanned planned;
        planned.id = "0190a5f0-0000-7000-8000-000000000001";
        planned.first = first;
        planned.second = second;
        book.matches = {planned};
        ResultListed result;
        result.match_id = planned.id;
        result.set_scores = {{25, 20}, {25, 18}};
        result.decided = true;
        result.head_hash = std::string(32, '\x5a');
        book.results = {result};
        return book;
    }
    static event::MatchRef match(const event::TournamentState& state, const char* name) {
        return *state.find_match(name);
    }

    const event::TournamentState state =
        event::testing::state_of(event::testing::small_cup() +
                                 "record A1 0190a5f0000070008000000000000001\n"
                                 "record M1 0190a5f0000070008000000000000001\n");
    const std::string first = state.teams[state.side(match(state, "A1"), 0).team].name;
    const std::string second = state.teams[state.side(match(state, "A1"), 1).team].name;
};

TEST_F(TableResultsTest, ARunningSetIsNobodysYet) {
    DeskBook running = book(first, second);
    running.results[0].sets = {1, 0};
    running.results[0].set_scores = {{25, 20}, {7, 3}};
    running.results[0].decided = false;
    const auto found = TableResults{running}.of(state, match(state, "A1"));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->sets.size(), 2U);
    EXPECT_EQ(found->ended, 1U);
}

TEST_F(TableResultsTest, AreOfTheTeamsThatPlayTheMatch) {
    const struct {
        std::string first;
        std::string second;
        std::vector<SetScore> sets;  ///< in the order of the sides; none: there is no result
    } cases[]{{first, second, {{25, 20}, {25, 18}}},
              {second, first, {{20, 25}, {18, 25}}},
              {first, "Harbour Gate", {}},
              {"Harbour Gate", second, {}},
              {second, second, {}},
              {"", "", {}}};
    for (const auto& one : cases) {
        const TableResults tables{book(one.first, one.second)};
        const auto found = tables.of(state, match(state, "A1"));
        EXPECT_EQ(found.has_value(), !one.sets.empty()) << one.first << " – " << one.second;
        EXPECT_EQ(found ? found->sets : std::vector<SetScore>{}, one.sets);
        EXPECT_EQ(tables.to_confirm(state, match(state, "A1")), !one.sets.empty());
        EXPECT_EQ(tables.confirmation(state, match(state, "A1")).has_value(), !one.sets.empty());
        EXPECT_FALSE(tables.to_confirm(state, match(state, "M1"))) << "its sides are not known";
    }
}

TEST_F(TableResultsTest, SignaturesAreOfTheSidesOfTheMatch) {
    for (const bool other_way : {false, true}) {
        DeskBook news = other_way ? book(second, first) : book(first, second);
        news.results[0].signed_by = {Signer::captain_a, Signer::scorer};
        const auto found = TableResults{news}.of(state, match(state, "A1"));
        ASSERT_TRUE(found);
        EXPECT_EQ(found->signed_by,
                  (SignerSet{other_way ? Signer::captain_b : Signer::captain_a, Signer::scorer}));
    }
}

TEST_F(TableResultsTest, AMatchLostByDefaultIsAwardedNotConfirmed) {
    DeskBook news = book(first, second);
    news.results[0].forfeited = true;
    const TableResults tables{news};
    EXPECT_FALSE(tables.to_confirm(state, match(state, "A1")));
    EXPECT_FALSE(tables.confirmation(state, match(state, "A1")));
    EXPECT_TRUE(tables.to_award(state, match(state, "A1")));
    EXPECT_FALSE(TableResults{book(first, second)}.to_award(state, match(state, "A1")));
}

}  // namespace
}  // namespace courthand::venue
