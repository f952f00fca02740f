// Lines of an event file come back as they were written, and base64 is that of the standard.
#include "event_file/base64.h"
#include "event_file_kit.h"

namespace courthand::event_file {
namespace {

TEST(EventLines, EveryLineComesBackAsTheSameText) {
    for (const std::string& text : kit::lines_of(kit::forked_file())) {
        const auto read = read_line(text, 1);
        ASSERT_TRUE(std::holds_alternative<Line>(read)) << text;
        EXPECT_EQ(written(std::get<Line>(read)), text);
    }
}

TEST(EventLines, APlanKeepsItsLargeNumbers) {
    const auto read = read_line(written(MatchLine{kit::planned_match()}), 1);
    const v1::Match& plan = std::get<MatchLine>(std::get<Line>(read)).plan;
    EXPECT_EQ(plan.SerializeAsString(), kit::planned_match().SerializeAsString());
}

TEST(EventLines, WhatIsNestedWithoutEndIsRefused) {
    for (const std::string open : {"[", "{\"a\":"}) {
        std::string deep = "{\"match\":";
        while (deep.size() < most_line_bytes / 2) deep += open;
        const auto read = read_line(deep, 3);
        ASSERT_TRUE(std::holds_alternative<Fault>(read));
        EXPECT_EQ(std::get<Fault>(read).line, 3U);
        EXPECT_NE(std::get<Fault>(read).message.find("levels deep"), std::string::npos)
            << std::get<Fault>(read).message;
    }
}

// The vectors of RFC 4648, section 10.
TEST(Base64, IsThatOfTheStandard) {
    const std::pair<std::string, std::string> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) {
        EXPECT_EQ(to_base64(bytes), text);
        EXPECT_EQ(from_base64(text), bytes);
    }
}

TEST(Base64, RefusesWhatItDoesNotWrite) {
    for (const char* text :
         {"Z", "Zg=", "Zg", " Zm8=", "Zm8=\n", "Zm9=", "Z===", "====", "Zm8=Zm8=", "Zm 9v", "Zm-v"})
        EXPECT_EQ(from_base64(text), std::nullopt) << text;
}

}  // namespace
}  // namespace courthand::event_file
