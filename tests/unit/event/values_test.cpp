#include "courthand/event/values.h"

#include <gtest/gtest.h>

#include "courthand/event/fact_fields.h"

namespace courthand::event {
namespace {

TEST(Values, DaysAreReadAndWritten) {
    for (const char* text : {"1970-01-02", "2026-11-28", "2028-02-29", "2099-12-31"}) {
        const auto date = date_of(text);
        ASSERT_TRUE(date.has_value()) << text;
        EXPECT_EQ(written(*date), text);
    }
    EXPECT_EQ(date_of("2026-11-28")->days, 20'785);
    for (const char* text : {"", "2026-02-29", "2026-13-01", "26-11-28", "2026/11/28", "1970-01-01",
                             "2200-01-01", "2026-11-2x"})
        EXPECT_FALSE(date_of(text).has_value()) << text;
}

TEST(Values, MomentsAreReadAndWritten) {
    for (const char* text : {"2026-11-28T00:00", "2026-11-28T23:59", "2026-11-28T09:30"}) {
        const auto time = local_time_of(text);
        ASSERT_TRUE(time.has_value()) << text;
        EXPECT_EQ(written(*time), text);
        EXPECT_EQ(written(time->date()), "2026-11-28");
    }
    for (const char* text : {"2026-11-28", "2026-11-28T24:00", "2026-11-28T09:60",
                             "2026-11-28 09:30", "2026-11-28T9:30"})
        EXPECT_FALSE(local_time_of(text).has_value()) << text;
}

/// The row of a kind names all its members; the compiler counts them.
TEST(Values, TheMembersOfAKindAreCounted) {
    struct Mixed {
        std::string text;
        std::vector<Source> sources;
        FormatChoice format;
        RecordId id;
        bool flag;
    };
    EXPECT_EQ(detail::members<Mixed>(), 5u);
    EXPECT_EQ(detail::members<TakenBack>(), 1u);
}

TEST(Values, BoundsNameTheField) {
    const auto problem = [](const Fact& fact) {
        const auto found = out_of_bounds(fact);
        return found ? std::string{found->field} + " " + found->message : std::string{};
    };
    EXPECT_EQ(problem(TeamEntered{"Mill Lane", "U16", ""}), "");
    EXPECT_EQ(problem(TeamEntered{"", "U16", ""}), "team is empty");
    EXPECT_EQ(problem(TeamEntered{"Mill Lane", "U 16", ""}),
              "division has other signs than letters, digits and - . _ + /");
    EXPECT_EQ(problem(TeamEntered{std::string(65, 'x'), "U16", ""}),
              "team 65 bytes, at most 64 are allowed");
    EXPECT_EQ(problem(TeamEntered{"Mill Lane", "U16", "", "1F3a5f"}), "");
    EXPECT_EQ(problem(TeamEntered{"Mill Lane", "U16", "", "blue"}),
              "colour is not six hexadecimal digits");
    EXPECT_EQ(problem(TeamEntered{"Mill Lane", "U16", "", "1f3a5f0"}),
              "colour 7 bytes, at most 6 are allowed");
    EXPECT_EQ(problem(RosterFrozen{"Mill Lane", {7, 100}}), "numbers 100 is not within 0 to 99");
    EXPECT_EQ(problem(ResultConfirmed{"M1", ResultFrom::paper, {}, {}, {}}),
              "sets 0 items, 1 to 5 are allowed");
    EXPECT_EQ(problem(SidesGiven{"M1", {}, {}}), "first is not given");
    EXPECT_EQ(problem(TournamentOpened{"Harbour Cup", {}, {20'786}, "Europe/London"}),
              "first_day is not given");
}

}  // namespace
}  // namespace courthand::event
