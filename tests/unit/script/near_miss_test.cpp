#include "script/near_miss.h"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace courthand::script {
namespace {

constexpr std::array<std::string_view, 6> verbs{"libero", "sub",    "serve",
                                                "set",    "switch", "timeout"};

TEST(NearMiss, FindsOneSlipOfTheHand) {
    EXPECT_EQ(near_miss("libreo", verbs), "libero");
    EXPECT_EQ(near_miss("sevre", verbs), "serve");
    EXPECT_EQ(near_miss("time-out", verbs), "timeout");
    EXPECT_EQ(near_miss("swich", verbs), "switch");
}

TEST(NearMiss, TakesTheNearestOfSeveral) {
    EXPECT_EQ(near_miss("sett", verbs), "set");
}

TEST(NearMiss, KnowsALongerWordByItsBeginning) {
    EXPECT_EQ(near_miss("substitution", verbs), "sub");
}

TEST(NearMiss, OffersNothingForAnotherWord) {
    EXPECT_TRUE(near_miss("referee", verbs).empty());
    EXPECT_EQ(suggestion("referee", verbs, "see the list"), "see the list");
}

TEST(NearMiss, OffersWordsThatShareAPartTheNearestFirst) {
    constexpr std::array<std::string_view, 4> codes{"libero-front-row", "wrong-server",
                                                    "libero-unable", "front-row-attack"};
    EXPECT_EQ(related("row-front", codes),
              (std::vector<std::string_view>{"libero-front-row", "front-row-attack"}));
    EXPECT_EQ(suggestion("bad-server", codes, "see the list"),
              "did you mean one of wrong-server? Otherwise: see the list");
    EXPECT_TRUE(related("a-b", codes).empty()) << "too short to tell anything";
}

TEST(NearMiss, GivesUpOnAVeryLongWord) {
    EXPECT_TRUE(near_miss(std::string(400, 's'), verbs).empty());
}

}  // namespace
}  // namespace courthand::script
