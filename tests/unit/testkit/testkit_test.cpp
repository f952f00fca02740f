// What the tests lean on is tested too: it must not let a failure pass, nor wait for nothing.
#include <gtest/gtest.h>

#include <atomic>
#include <fstream>
#include <thread>

#include "tests/testkit/eventually.h"
#include "tests/testkit/hand_clock.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::testkit {
namespace {

constexpr std::chrono::milliseconds short_limit{20};

TEST(Eventually, WhatHoldsAlreadyIsLookedAtOnce) {
    int looks = 0;
    EXPECT_TRUE(eventually([&] { return ++looks > 0; }));
    EXPECT_EQ(looks, 1);
}

TEST(Eventually, WhatAnotherThreadBringsAboutIsSeen) {
    std::atomic<bool> done{false};
    std::thread other{[&] { done = true; }};
    EXPECT_TRUE(eventually([&] { return done.load(); }));
    other.join();
}

TEST(Eventually, WhatNeverComesIsAFailureThatNamesTheLimit) {
    const auto failed = eventually([] { return false; }, short_limit);
    EXPECT_FALSE(failed);
    EXPECT_STREQ(failed.message(), "it has not come within 20 ms");
}

TEST(ScratchFolderOfATest, IsEmptyOfItsOwnAndGoesAwayWithAllThatIsInIt) {
    std::filesystem::path path;
    {
        const ScratchFolder one;
        const ScratchFolder two;
        EXPECT_NE(one.path(), two.path());
        path = one.path();
        EXPECT_TRUE(std::filesystem::is_empty(path));
        std::ofstream{path / "file"} << "text";
    }
    EXPECT_FALSE(std::filesystem::exists(path));
}

TEST(HandClockOfATest, ShowsWhatItWasSetToAndNothingElse) {
    HandClock clock;
    EXPECT_EQ(clock.steady(), HandClock::beginning);
    EXPECT_EQ(clock.steady(), clock.wall());
    clock.pass(HandClock::Time{5});
    clock.set_wall_back(HandClock::Time{2});
    EXPECT_EQ(clock.steady() - HandClock::beginning, HandClock::Time{5});
    EXPECT_EQ(clock.wall() - HandClock::beginning, HandClock::Time{3});
    clock.set(HandClock::Time{40});
    EXPECT_EQ(clock.steady() - HandClock::beginning, HandClock::Time{40});

    HandClock walks{HandClock::Time{10}};
    EXPECT_EQ(walks.steady() - HandClock::beginning, HandClock::Time{10});
    EXPECT_EQ(walks.steady() - HandClock::beginning, HandClock::Time{20});
    walks.stand_still();
    EXPECT_EQ(walks.steady() - HandClock::beginning, HandClock::Time{20});
}

}  // namespace
}  // namespace courthand::testkit
