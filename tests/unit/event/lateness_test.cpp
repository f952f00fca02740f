#include "courthand/event/lateness.h"

#include "event_of.h"

namespace courthand::event {
namespace {

/// One league gives a point a minute, the first set after ten minutes, the match after twenty:
/// common practice, no source.
std::string late_cup() {
    std::string text = testing::small_cup();
    const std::string chain = "chain international-2017";
    text.replace(text.find(chain), chain.size(),
                 chain + " late-points 1 late-set 10 late-match 20 crew-late-points 1");
    return text;
}

LatePenalty penalty_at(const std::string& lines, const char* now) {
    const TournamentState state = testing::state_of(late_cup() + lines);
    EXPECT_TRUE(state.findings.empty());
    const MatchState& match = state.match(*state.find_match("A1"));
    EXPECT_EQ(match.clocks.size(), 1u);
    return late_penalty(state.divisions[0], match.clocks.front(), *local_time_of(now));
}

std::string clock(const char* act, const char* at, const char* party = "team") {
    // The first side of A1 by the published order of a pool of three.
    const TournamentState state = testing::state_of(late_cup());
    const Side side = state.side(*state.find_match("A1"), 0);
    return std::string{"late A1 "} + party + " \"" + state.teams[side.team].name + "\" " + act +
           " at " + at + "\n";
}

TEST(Lateness, GrowsWithTheMinutesOfARunningClock) {
    const std::string started = clock("started", "2026-11-28T09:00");
    EXPECT_EQ(penalty_at(started, "2026-11-28T09:00"), (LatePenalty{0, 0, false, false}));
    EXPECT_EQ(penalty_at(started, "2026-11-28T09:07"), (LatePenalty{7, 7, false, false}));
    EXPECT_EQ(penalty_at(started, "2026-11-28T09:10"), (LatePenalty{10, 10, true, false}));
    EXPECT_EQ(penalty_at(started, "2026-11-28T09:40"), (LatePenalty{40, 25, true, true}));
}

TEST(Lateness, DoesNotGrowWhileTheTeamIsHeldElsewhere) {
    const std::string held = clock("started", "2026-11-28T09:00") +
                             clock("paused", "2026-11-28T09:04") +
                             clock("started", "2026-11-28T09:30");
    EXPECT_EQ(penalty_at(held, "2026-11-28T09:33").minutes, 7);
    EXPECT_EQ(penalty_at(held + clock("stopped", "2026-11-28T09:34"), "2026-11-28T12:00").minutes,
              8);
}

TEST(Lateness, OfACrewCostsPointsAlone) {
    EXPECT_EQ(penalty_at(clock("started", "2026-11-28T09:00", "crew"), "2026-11-28T10:00"),
              (LatePenalty{60, 25, false, false}));
}

TEST(Lateness, AClockThatDoesNotRunCannotBePaused) {
    for (const std::string& lines :
         {clock("paused", "2026-11-28T09:00"),
          clock("started", "2026-11-28T09:00") + clock("started", "2026-11-28T09:01"),
          clock("started", "2026-11-28T09:00") + clock("stopped", "2026-11-28T08:59"),
          clock("started", "2026-11-28T09:00") + clock("stopped", "2026-11-28T09:01") +
              clock("started", "2026-11-28T09:02")}) {
        const TournamentState state = testing::state_of(late_cup() + lines);
        ASSERT_EQ(state.findings.size(), 1u) << lines;
        EXPECT_EQ(state.findings.front().problem, Problem::clock_wrong);
    }
}

}  // namespace
}  // namespace courthand::event
