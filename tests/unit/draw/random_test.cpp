// The generator of every draw.
#include "courthand/draw/random.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>

namespace courthand::draw {
namespace {

// First numbers of SplitMix64 from seed 1234567, as its published test program prints them.
TEST(Random, IsThePublishedGenerator) {
    Random random{1234567};
    const std::array<std::uint64_t, 5> expected{6457827717110365317U, 3203168211198807973U,
                                                9817491932198370423U, 4593380528125082431U,
                                                16408922859458223821U};
    for (const std::uint64_t number : expected) EXPECT_EQ(random.next(), number);
}

TEST(Random, NumbersStayBelowTheirLimit) {
    Random random{7};
    std::array<int, 6> seen{};
    for (int i = 0; i < 6000; ++i) ++seen.at(static_cast<std::size_t>(random.below(6)));
    for (const int count : seen) EXPECT_NEAR(count, 1000, 150);
}

TEST(Random, AShuffleKeepsAllItems) {
    std::vector<int> items{1, 2, 3, 4, 5, 6, 7, 8};
    std::vector<int> again = items;
    Random random{99};
    shuffle(items, random);
    Random same{99};
    shuffle(again, same);
    EXPECT_EQ(items, again);
    std::sort(items.begin(), items.end());
    EXPECT_EQ(items, (std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8}));
}

}  // namespace
}  // namespace courthand::draw
