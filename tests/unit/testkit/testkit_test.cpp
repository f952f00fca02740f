// What the tests lean on is tested too: it must not let a failure pass, nor wait for nothing.
#include <gtest/gtest.h>

#include <atomic>
#include <fstream>
#include <thread>

#include "tests/testkit/eventually.h"
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

}  // namespace
}  // namespace courthand::testkit
