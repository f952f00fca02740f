// Ids against the layout of RFC 9562, section 5.7, and its example in appendix A.6.
#include "wire/uuid.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace courthand::wire {
namespace {

UuidMaker::Random fixed(std::array<std::uint8_t, 10> bytes) {
    return [bytes](std::span<std::uint8_t> out) {
        ASSERT_EQ(out.size(), bytes.size());
        std::copy(bytes.begin(), bytes.end(), out.begin());
    };
}

TEST(Uuid, TheExampleOfTheStandard) {
    // unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F
    UuidMaker maker{[] { return std::uint64_t{0x017F22E279B0}; },
                    fixed({0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F})};
    const Uuid id = maker.next();
    EXPECT_EQ(id.to_text(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    EXPECT_EQ(id.milliseconds(), 0x017F22E279B0u);
}

TEST(Uuid, VersionAndVariantWhateverTheRandomBytes) {
    for (const int fill : {0x00, 0x55, 0xaa, 0xff}) {
        std::array<std::uint8_t, 10> bytes{};
        bytes.fill(static_cast<std::uint8_t>(fill));
        UuidMaker maker{[] { return std::uint64_t{1}; }, fixed(bytes)};
        const Uuid id = maker.next();
        EXPECT_EQ(id.bytes()[6] >> 4, 7);
        EXPECT_EQ(id.bytes()[8] >> 6, 2);
    }
}

TEST(Uuid, EachIsGreaterThanTheOneBefore) {
    std::uint64_t now = 1000;
    // All ones: the very first id of a millisecond leaves no room to count up.
    std::array<std::uint8_t, 10> ones{};
    ones.fill(0xff);
    UuidMaker maker{[&] { return now; }, fixed(ones)};
    Uuid last = maker.next();
    const std::array<std::int64_t, 7> steps{0, 0, 1, -900, 0, 899, 5};
    for (const std::int64_t step : steps) {
        now = static_cast<std::uint64_t>(static_cast<std::int64_t>(now) + step);
        for (int i = 0; i < 100; ++i) {
            const Uuid next = maker.next();
            ASSERT_LT(last, next);
            ASSERT_EQ(next.bytes()[6] >> 4, 7);
            ASSERT_EQ(next.bytes()[8] >> 6, 2);
            last = next;
        }
    }
}

TEST(Uuid, SystemMakersDoNotMeet) {
    UuidMaker one = UuidMaker::of_system();
    UuidMaker two = UuidMaker::of_system();
    std::set<Uuid> seen;
    for (int i = 0; i < 1000; ++i) {
        EXPECT_TRUE(seen.insert(one.next()).second);
        EXPECT_TRUE(seen.insert(two.next()).second);
    }
}

TEST(Uuid, TextAndBytesThereAndBack) {
    const Uuid id = UuidMaker::of_system().next();
    EXPECT_EQ(Uuid::from_text(id.to_text()), id);
    EXPECT_EQ(Uuid::from_bytes(id.to_bytes()), id);
    std::string upper = id.to_text();
    for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    EXPECT_EQ(Uuid::from_text(upper), id);
    EXPECT_TRUE(Uuid{}.none());
    EXPECT_FALSE(id.none());
}

TEST(Uuid, WhatIsNoId) {
    for (const char* text :
         {"", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "017f22e2-79b0-7cc3-98c4-dc0c0c07398ff",
          "017f22e2_79b0-7cc3-98c4-dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398g",
          "017f22e279b07cc398c4dc0c0c07398f----"})
        EXPECT_FALSE(Uuid::from_text(text).has_value()) << text;
    EXPECT_FALSE(Uuid::from_bytes("fifteen bytes..").has_value());
    EXPECT_FALSE(Uuid::from_bytes("seventeen bytes..").has_value());
}

}  // namespace
}  // namespace courthand::wire
