// What the desk that acts by itself says next.
#include "client/tables/simulated_desk.h"

#include <gtest/gtest.h>

#include <variant>

#include "tests/unit/event/event_of.h"

namespace courthand::client {
namespace {

using event::testing::small_cup;
using event::testing::state_of;

constexpr const char* record = "record A1 0190a5f0000070008000000000000001\n";

venue::DeskBook book(const event::TournamentState& state, char head) {
    const auto ref = *state.find_match("A1");
    venue::DeskBook book;
    venue::MatchPlanned planned;
    planned.id = "0190a5f0-0000-7000-8000-000000000001";
    planned.first = state.teams[state.side(ref, 0).team].name;
    planned.second = state.teams[state.side(ref, 1).team].name;
    book.matches = {planned};
    venue::ResultListed result;
    result.match_id = planned.id;
    result.set_scores = {{25, 20}, {25, 18}};
    result.decided = true;
    result.head_hash = std::string(32, head);
    book.results = {result};
    return book;
}

TEST(SimulatedDesk, ConfirmsARecordOnceAndLeavesAReopenedOneToPeople) {
    sim::Dice dice{1};
    event::TournamentState state = state_of(small_cup() + record);
    const auto said = next_said(state, book(state, '\x5a'), dice);
    ASSERT_EQ(said.size(), 1u);
    ASSERT_TRUE(std::holds_alternative<event::ResultConfirmed>(said[0]));
    event::fold_in(state, said[0]);
    EXPECT_TRUE(next_said(state, book(state, '\x5a'), dice).empty());
    event::fold_in(state, event::ResultReopened{"A1"});
    EXPECT_TRUE(next_said(state, book(state, '\x5a'), dice).empty());
    EXPECT_EQ(next_said(state, book(state, '\x5b'), dice).size(), 1u) << "the table wrote on";
}

TEST(SimulatedDesk, SaysOnceWhatHasNoEffect) {
    sim::Dice dice{1};
    event::TournamentState state = state_of(small_cup() + record);
    venue::DeskBook news = book(state, '\x5a');
    news.results[0].set_scores = {{25, 24}, {25, 18}};
    const auto said = next_said(state, news, dice);
    ASSERT_EQ(said.size(), 1u);
    event::fold_in(state, said[0]);
    ASSERT_EQ(state.findings.size(), 1u);
    EXPECT_TRUE(next_said(state, news, dice).empty());
}

}  // namespace
}  // namespace courthand::client
