// Exact quotients.
#include "courthand/standings/quotient.h"

#include <gtest/gtest.h>

namespace courthand::standings {
namespace {

TEST(Quotient, IsComparedExactly) {
    EXPECT_EQ((Quotient{4, 2}), (Quotient{2, 1}));
    EXPECT_GT((Quotient{5, 3}), (Quotient{1666666, 1000000}));
    EXPECT_LT((Quotient{-2, 1}), (Quotient{0, 1}));
}

TEST(Quotient, NothingLostIsAboveAnyFinite) {
    EXPECT_GT((Quotient{1, 0}), (Quotient{999, 1}));
    EXPECT_EQ((Quotient{1, 0}), (Quotient{9, 0}));
}

TEST(Quotient, NothingPlayedIsNothingWon) {
    EXPECT_EQ((Quotient{0, 0}), (Quotient{0, 3}));
    EXPECT_LT((Quotient{0, 0}), (Quotient{1, 9}));
}

TEST(Quotient, IsPrintedRounded) {
    EXPECT_EQ(decimal({8, 3}), "2.6667");
    EXPECT_EQ(decimal({7, 5}, 3), "1.400");
    EXPECT_EQ(decimal({1, 9}), "0.1111");
    EXPECT_EQ(decimal({18, 0}), "-");
    EXPECT_EQ(decimal({0, 0}), "0.0000");
}

}  // namespace
}  // namespace courthand::standings
