// Silence of courts: words say "not seen", and one cause makes one alert.
#include <gtest/gtest.h>

#include "server/alerts/court_watch.h"

namespace courthand::server::alerts {
namespace {

using std::chrono::seconds;

Now at(int second) {
    const auto since = std::chrono::hours{1000} + seconds{second};
    return {Instant{} + since, Steady{} + since};
}

MatchId match(std::uint8_t number) {
    MatchId id;
    id.value.bytes[15] = number;
    return id;
}

CourtWatch watch_of(std::uint32_t courts, Stage stage = Stage::dead_ball) {
    CourtWatch watch;
    for (std::uint32_t court = 1; court <= courts; ++court) {
        watch.set_match(court, match(static_cast<std::uint8_t>(court)), stage);
        watch.heard(court, at(0));
    }
    return watch;
}

TEST(CourtWatch, ACourtInPlayIsNotSeenAfterAMinute) {
    CourtWatch watch = watch_of(2);
    watch.heard(2, at(59));
    EXPECT_TRUE(watch.conditions(at(59), at(0)).empty());
    const auto conditions = watch.conditions(at(60), at(0));
    ASSERT_EQ(conditions.size(), 1U);
    EXPECT_EQ(conditions.front().court, 1U);
    EXPECT_EQ(conditions.front().code, "court-not-seen");
    EXPECT_EQ(conditions.front().severity, Severity::low);
    EXPECT_NE(conditions.front().text.find("not seen"), std::string::npos);
    EXPECT_EQ(conditions.front().text.find("stopped"), std::string::npos);
}

TEST(CourtWatch, ALongerSilencePressesMore) {
    CourtWatch watch = watch_of(2);
    watch.heard(2, at(500));
    EXPECT_EQ(watch.conditions(at(180), at(0)).front().severity, Severity::medium);
    EXPECT_EQ(watch.conditions(at(480), at(0)).front().severity, Severity::high);
}

TEST(CourtWatch, TwoQuietMinutesBetweenSetsRaiseNothing) {
    CourtWatch watch = watch_of(2, Stage::set_over);
    EXPECT_TRUE(watch.conditions(at(120), at(0)).empty());
    EXPECT_TRUE(watch.conditions(at(470), at(0)).empty());
}

TEST(CourtWatch, ACourtWithoutAMatchIsNotWatched) {
    CourtWatch watch = watch_of(1);
    watch.set_match(1, std::nullopt, Stage::before_match);
    EXPECT_TRUE(watch.conditions(at(5000), at(0)).empty());
}

TEST(CourtWatch, AllCourtsSilentIsOneAlert) {
    CourtWatch watch = watch_of(12);
    // The last signs of life do not come in the same second.
    for (std::uint32_t court = 1; court <= 12; ++court)
        watch.heard(court, at(static_cast<int>(court)));
    for (int second = 61; second < 200; ++second) {
        const auto conditions = watch.conditions(at(second), at(0));
        ASSERT_EQ(conditions.size(), 1U) << second;
        EXPECT_EQ(conditions.front().code, "no-court-seen");
    }
}

TEST(CourtWatch, OneCourtHeardAgainLeavesTheOthersNotSeen) {
    CourtWatch watch = watch_of(3);
    watch.heard(2, at(100));
    const auto conditions = watch.conditions(at(101), at(0));
    ASSERT_EQ(conditions.size(), 2U);
    EXPECT_EQ(conditions.front().code, "court-not-seen");
}

TEST(CourtWatch, NobodyIsSilentBeforeTheServerListens) {
    CourtWatch watch = watch_of(2);
    EXPECT_TRUE(watch.conditions(at(1000), at(990)).empty());
}

TEST(CourtWatch, WhatWasNotSeenAtTheStopStaysSoUntilItIsHeard) {
    CourtWatch watch;
    watch.set_match(1, match(1), Stage::dead_ball);
    watch.set_match(2, match(2), Stage::dead_ball);
    watch.heard(2, at(0));
    watch.presume_silent(1);
    ASSERT_EQ(watch.conditions(at(1), at(0)).size(), 1U);
    watch.heard(1, at(2));
    EXPECT_TRUE(watch.conditions(at(3), at(0)).empty());
}

TEST(CourtWatch, AWallClockThatStepsBackHidesNoSilence) {
    CourtWatch watch = watch_of(2);
    Now later = at(59);
    later.wall -= std::chrono::hours{1};
    watch.heard(2, later);
    EXPECT_EQ(watch.last_heard(2)->wall, later.wall) << "what people read is the clock's business";
    later.steady += seconds{1};
    ASSERT_EQ(watch.conditions(later, at(0)).size(), 1U);
    EXPECT_EQ(watch.conditions(later, at(0)).front().court, 1U);
}

}  // namespace
}  // namespace courthand::server::alerts
