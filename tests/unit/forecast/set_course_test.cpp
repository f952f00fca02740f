// Sets by the chance of a rally. The printed numbers: handbook arithmetic, confirmed there against
// a step-by-step recursion; memory. tests/oracle/forecast has them from closed forms.
#include "courthand/forecast/set_course.h"

#include <gtest/gtest.h>

#include "courthand/match/set_end.h"
#include "printed.h"

namespace courthand::forecast {
namespace {

constexpr std::uint8_t deciding = 5;

MatchFormat to_points(std::uint8_t points, std::uint8_t cap = 0, std::uint8_t start = 0) {
    MatchFormat format;
    format.points = points;
    format.cap = cap;
    format.start_score = start;
    return format;
}

SetCourse of_set(const MatchFormat& format, double p, SetNow now = {}) {
    return set_course(format, 1, now, RallyOdds::plain(p));
}

struct Row {
    double p;
    const char* win25;
    const char* mean25;
    const char* deviation25;
    const char* all24;
    const char* win15;
    const char* mean15;
};

class PrintedSets : public testing::TestWithParam<Row> {};

TEST_P(PrintedSets, ToTheLastDigit) {
    const Row& row = GetParam();
    const MatchFormat format;
    const SetCourse set = of_set(format, row.p);
    EXPECT_EQ(printed(set.win(Team::A), 6), row.win25);
    EXPECT_EQ(printed(mean(set.rallies()), 4), row.mean25);
    EXPECT_EQ(printed(deviation(set.rallies()), 3), row.deviation25);
    EXPECT_EQ(printed(chance_of_score(format, 1, {}, RallyOdds::plain(row.p), {24, 24}), 6),
              row.all24);
    const SetCourse short_set = set_course(format, deciding, {}, RallyOdds::plain(row.p));
    EXPECT_EQ(printed(short_set.win(Team::A), 6), row.win15);
    EXPECT_EQ(printed(mean(short_set.rallies()), 4), row.mean15);
}

INSTANTIATE_TEST_SUITE_P(
    Odds, PrintedSets,
    testing::Values(Row{.50, "0.500000", "44.7299", "4.228", "0.114567", "0.500000", "26.1144"},
                    Row{.52, "0.613052", "44.5639", "4.286", "0.110247", "0.588949", "26.0409"},
                    Row{.55, "0.764116", "43.7376", "4.514", "0.090012", "0.713331", "25.6679"},
                    Row{.60, "0.926395", "41.2978", "4.745", "0.043010", "0.871577", "24.4956"}));

TEST(SetCourse, FromAScore) {
    struct From {
        SetNow now;
        const char* even;
        const char* better;  ///< p = .52
    };
    for (const From& from :
         {From{{24, 23}, "0.750000", "0.779169"}, From{{20, 15}, "0.910217", "0.933703"},
          From{{10, 5}, "0.804236", "0.864010"}, From{{0, 5}, "0.225690", "0.315430"}}) {
        EXPECT_EQ(printed(of_set({}, .50, from.now).win(Team::A), 6), from.even);
        EXPECT_EQ(printed(of_set({}, .52, from.now).win(Team::A), 6), from.better);
    }
    EXPECT_EQ(printed(of_set({}, .50, {25, 24}).win(Team::A), 2), "0.75");
}

TEST(SetCourse, ACapTwoPointsOnAndAStartAtFourAll) {
    const SetCourse capped = of_set(to_points(25, 27), .52);
    EXPECT_EQ(printed(capped.win(Team::A), 6), "0.612504");
    EXPECT_EQ(printed(mean(capped.rallies()), 4), "44.4817");

    const MatchFormat from_four = to_points(25, 0, 4);
    EXPECT_EQ(printed(mean(of_set(from_four, .50, set_start(from_four, Team::A)).rallies()), 4),
              "37.2359");
    const SetCourse ahead = of_set(from_four, .52, set_start(from_four, Team::A));
    EXPECT_EQ(printed(ahead.win(Team::A), 6), "0.604138");
    // From 4-4 to 25 is from 0-0 to 21.
    EXPECT_DOUBLE_EQ(ahead.win(Team::A), of_set(to_points(21), .52).win(Team::A));
    EXPECT_EQ(printed(mean(of_set(to_points(21), .50).rallies()), 3), "37.236");
}

TEST(SetCourse, WhoServesFirstInTheSideOutModel) {
    struct Serve {
        double k;
        const char* first;
    };
    for (const Serve& serve :
         {Serve{.30, "0.475157"}, Serve{.35, "0.482059"}, Serve{.40, "0.488336"},
          Serve{.45, "0.494249"}, Serve{.50, "0.500000"}}) {
        const RallyOdds equal{serve.k, 1 - serve.k};
        EXPECT_EQ(printed(set_course({}, 1, {0, 0, Team::A}, equal).win(Team::A), 6), serve.first);
        EXPECT_EQ(printed(set_course({}, 1, {0, 0, Team::B}, equal).win(Team::B), 6), serve.first);
    }
    EXPECT_EQ(printed(set_course({}, 1, {24, 24, Team::A}, {.30, .70}).win(Team::A), 6),
              "0.416667");
    EXPECT_EQ(printed(set_course({}, 1, {24, 24, Team::A}, {.40, .60}).win(Team::A), 6),
              "0.454545");
    EXPECT_EQ(printed(set_course({}, 1, {0, 0, Team::A}, {.42, .62}).win(Team::A), 6), "0.605215");
    EXPECT_EQ(printed(set_course({}, 1, {0, 0, Team::B}, {.42, .62}).win(Team::A), 6), "0.627573");
}

/// Each format of a set that is unlike the others somewhere.
const MatchFormat formats[] = {
    {}, to_points(15), to_points(25, 27), to_points(21, 21), to_points(1), to_points(25, 0, 4)};

TEST(SetCourse, EveryEndIsCountedOnceAndTeamsAreAlike) {
    for (const MatchFormat& format : formats)
        for (const double p : {.3, .45, .5}) {
            const SetNow start = set_start(format, Team::A);
            const SetCourse set = of_set(format, p, start);
            EXPECT_NEAR(total(set.rallies()), 1, 1e-12);
            const SetCourse turned = of_set(format, 1 - p, start);
            EXPECT_NEAR(set.win(Team::A), turned.win(Team::B), 1e-12);
            EXPECT_NEAR(mean(set.rallies()), mean(turned.rallies()), 1e-9);
        }
}

TEST(SetCourse, OneRallyLaterIsTheMeanOfBothWays) {
    const RallyOdds odds{.44, .58};
    for (const MatchFormat& format : formats)
        for (const SetNow now : {SetNow{7, 9, Team::A}, SetNow{13, 13, Team::B}}) {
            const auto set = [&](SetNow from) { return set_course(format, 1, from, odds); };
            if (wins_set(format, 1, now.a + 1, now.b) || wins_set(format, 1, now.b + 1, now.a))
                continue;
            const double p = odds.when_serves(now.server);
            const SetCourse won = set({now.a + 1, now.b, Team::A});
            const SetCourse lost = set({now.a, now.b + 1, Team::B});
            EXPECT_NEAR(set(now).win(Team::A), p * won.win(Team::A) + (1 - p) * lost.win(Team::A),
                        1e-12);
            EXPECT_NEAR(mean(set(now).rallies()),
                        1 + p * mean(won.rallies()) + (1 - p) * mean(lost.rallies()), 1e-9);
        }
}

TEST(SetCourse, NoRallyIsDoubtfulForTheBestAndNoSetForEver) {
    const SetCourse best = of_set({}, 1);
    EXPECT_EQ(best.win(Team::A), 1);
    EXPECT_EQ(mean(best.rallies()), 25);
    // Whoever receives wins the rally: from 24-24 nobody ever leads by two.
    const SetCourse endless = set_course({}, 1, {24, 24, Team::A}, {0, 1});
    EXPECT_EQ(endless.win(Team::A), .5);
    EXPECT_EQ(mean(endless.rallies()), static_cast<double>(most_rallies_ahead));
}

TEST(SetCourse, AScoreThatIsPassedIsNotComeBy) {
    const RallyOdds even{};
    EXPECT_EQ(chance_of_score({}, 1, {3, 2}, even, {3, 2}), 1);
    EXPECT_EQ(chance_of_score({}, 1, {3, 2}, even, {2, 3}), 0);
    EXPECT_EQ(chance_of_score({}, 1, {3, 2}, even, {4, 3}), .5);
    EXPECT_EQ(chance_of_score({}, 1, {}, even, {26, 0}), 0);
}

}  // namespace
}  // namespace courthand::forecast
