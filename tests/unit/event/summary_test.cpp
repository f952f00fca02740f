// What an event came to: the draw as it was drawn, whatever became of it, and places by name.
#include "courthand/event/summary.h"

#include <algorithm>

#include "event_of.h"
#include "played_event.h"

namespace courthand::event {
namespace {

using testing::small_cup;
using testing::state_of;
using Pools = std::vector<DrawnPool>;

const Pools as_entered{{"A", {"Harbour Lights", "Quayside", "Ropewalk"}},
                       {"B", {"Mill Lane", "Saltmarsh", "Lantern Hill"}}};

Pools drawn(const std::string& script) {
    const Summary found = summary(state_of(script));
    return found.draws.size() == 1 ? found.draws.front().pools : Pools{};
}

TEST(Summary, ADrawStaysAsItWasDrawn) {
    EXPECT_EQ(drawn(small_cup()), as_entered);
    EXPECT_EQ(drawn(small_cup() + "move-team \"Mill Lane\" to A with \"Quayside\"\n"), as_entered);
    EXPECT_EQ(drawn(small_cup() + "seeds U16 teams \"Lantern Hill\"\n"), as_entered);
    EXPECT_EQ(drawn(small_cup() + "withdrawn \"Ropewalk\"\n"), as_entered);
}

TEST(Summary, ADrawThatWasTakenBackIsNone) {
    EXPECT_TRUE(summary(state_of(small_cup() + "take-back 9\n")).draws.empty());
    const Summary again =
        summary(state_of(small_cup() + "take-back 9\ndraw U16 serpentine pools 1\n"));
    ASSERT_EQ(again.draws.size(), 1U);
    EXPECT_EQ(again.draws.front().fact, 12U);
    EXPECT_EQ(again.draws.front().pools.size(), 1U);
}

/// A second draw has no effect, and is not told.
TEST(Summary, OfTwoDrawsTheOneThatCountsIsTold) {
    const Summary found = summary(state_of(small_cup() + "draw U16 serpentine pools 3\n"));
    ASSERT_EQ(found.draws.size(), 1U);
    EXPECT_EQ(found.draws.front().fact, 9U);
}

TEST(Summary, PlacesAreToldByNameAndThoseThatAreLevelTogether) {
    const Summary found = summary(state_of(small_cup() + "result A1 paper 25-20 25-22\n"
                                                         "result A2 paper 25-20 25-22\n"
                                                         "result A3 paper 25-20 25-22\n"));
    ASSERT_EQ(found.pools.size(), 2U);
    EXPECT_EQ(found.pools[0].pool, "A");
    std::size_t placed = 0;
    for (const PoolPlace& place : found.pools[0].places) placed += place.teams.size();
    EXPECT_EQ(placed, 3U);
    // Nothing was played in the other: all three stand at the first of its places.
    ASSERT_EQ(found.pools[1].places.size(), 1U);
    EXPECT_EQ(found.pools[1].places[0].teams,
              (std::vector<std::string>{"Lantern Hill", "Mill Lane", "Saltmarsh"}));
    EXPECT_TRUE(found.finals.empty());
}

bool moved(const TournamentState& state) {
    return std::any_of(state.facts.begin(), state.facts.end(),
                       [](const Fact& fact) { return std::holds_alternative<TeamMoved>(fact); });
}

/// Where nobody moved a team, the pools are those of the draw, also after facts before the draw
/// were taken back.
TEST(Summary, ADrawMadeAgainGivesThePoolsThatAreThere) {
    std::size_t compared = 0;
    for (unsigned seed = 1; seed <= 200; ++seed) {
        std::vector<Fact> facts = testing::PlayedEvent{seed}.facts(60);
        // A note in its place, so that facts which are taken back keep their numbers.
        for (Fact& fact : facts)
            if (std::holds_alternative<TeamMoved>(fact)) fact = NoteWritten{};
        const TournamentState state = fold(facts);
        ASSERT_FALSE(moved(state));
        for (const Drawn& draw : summary(state).draws) {
            const auto index = state.find_division(draw.division);
            ASSERT_TRUE(index);
            const auto& pools = state.divisions[*index].pools;
            ASSERT_EQ(draw.pools.size(), pools.size()) << seed;
            for (std::size_t p = 0; p < pools.size(); ++p) {
                std::vector<std::string> names;
                for (const TeamIndex team : pools[p].teams) names.push_back(state.teams[team].name);
                EXPECT_EQ(draw.pools[p].teams, names) << seed;
                ++compared;
            }
        }
    }
    EXPECT_GT(compared, 300U);
}

}  // namespace
}  // namespace courthand::event
