// Seeded chance: every part once, the streams apart from each other.
#include "forecast/chance.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>

#include "forecast/outcomes.h"
#include "printed.h"

namespace courthand::forecast {
namespace {

TEST(Chance, EachStreamGivesEachSampleAPartOfItsOwn) {
    for (const std::uint32_t samples : {64U, 1024U, 2048U}) {
        const Chance chance{5, samples};
        for (const std::uint64_t stream : {0U, 1U, 700U}) {
            std::set<std::uint32_t> parts;
            for (std::uint32_t s = 0; s < samples; ++s)
                parts.insert(chance.part(chance.order(stream), s));
            EXPECT_EQ(parts.size(), samples);
            EXPECT_EQ(*parts.rbegin(), samples - 1);
        }
    }
}

TEST(Chance, StreamsHaveNothingToDoWithEachOther) {
    constexpr std::uint32_t samples = 1024;
    const Chance chance{1, samples};
    double worst = 0;
    double squares = 0;
    constexpr std::uint64_t streams = 40;
    for (std::uint64_t x = 0; x < streams; ++x)
        for (std::uint64_t y = x + 1; y < streams; ++y) {
            double sum = 0;
            for (std::uint32_t s = 0; s < samples; ++s)
                sum += chance.normal(chance.part(chance.order(x), s)) *
                       chance.normal(chance.part(chance.order(y), s));
            worst = std::max(worst, std::abs(sum / samples));
            squares += sum / samples * sum / samples;
        }
    // Of independent ones: 1 / sqrt(1024) = .031, and among 780 pairs four times that at most.
    EXPECT_LT(std::sqrt(squares / (streams * (streams - 1) / 2)), .045);
    EXPECT_LT(worst, .2);
}

TEST(Chance, TwoStreamsTogetherFillThePlaneEvenly) {
    // Chi-square of 64 equal squares, 63 degrees less 14 for the margins: above 85 once in 830
    // pairs.
    for (const std::uint64_t seed : {0U, 1U, 2U}) {
        constexpr std::uint32_t samples = 256;
        constexpr std::uint64_t streams = 80;
        const Chance chance{seed, samples};
        std::size_t odd = 0;
        for (std::uint64_t x = 0; x < streams; ++x)
            for (std::uint64_t y = x + 1; y < streams; ++y) {
                std::array<int, 64> squares{};
                for (std::uint32_t s = 0; s < samples; ++s)
                    ++squares[chance.part(chance.order(x), s) / 32 * 8 +
                              chance.part(chance.order(y), s) / 32];
                int sum = 0;
                for (const int square : squares) sum += (square - 4) * (square - 4);
                if (sum / 4 > 85) ++odd;
            }
        EXPECT_LT(odd, 20U) << seed;  // of 3160 pairs; four are to be expected
    }
}

TEST(Chance, QuantilesOfTheGammaLaw) {
    // Shape 1 is the exponential law; of shape 2, 1 - (1 + x) e^-x; of shape 1/2, half the square
    // of a normal variable.
    for (const double chance : {1e-5, .03, .5, .9, 1 - 1e-5}) {
        EXPECT_NEAR(gamma_quantile(1, chance) / -std::log1p(-chance), 1, 1e-9);
        const double x = gamma_quantile(2, chance);
        EXPECT_NEAR(1 - (1 + x) * std::exp(-x), chance, 1e-9);
        const double normal = normal_quantile((1 + chance) / 2);
        EXPECT_NEAR(gamma_quantile(.5, chance) / (normal * normal / 2), 1, 1e-6);
    }
    // Of a large shape nearly normal, with the correction of Wilson and Hilferty (1931; memory).
    EXPECT_NEAR(gamma_quantile(10'000, .8), 10'000 * std::pow(1 - 1 / 9e4 + .841621 / 300, 3), .01);
}

TEST(Chance, QuantilesOfTheNormalLaw) {
    EXPECT_EQ(normal_quantile(.5), 0);
    // Tables of the normal distribution; memory.
    EXPECT_EQ(printed(normal_quantile(.8), 6), "0.841621");
    EXPECT_EQ(printed(normal_quantile(.975), 6), "1.959964");
    EXPECT_EQ(printed(normal_quantile(.001), 6), "-3.090232");
    EXPECT_EQ(printed(normal_quantile(1 - 1e-6), 5), "4.75342");
}

TEST(Outcomes, FallAsOftenAsTheyAreLikely) {
    MatchFormat format;
    format.sets = 3;
    const MatchCourse course =
        MatchTable{format, RallyOdds::plain(.5)}.course(match_start(format, Team::A));
    const auto outcomes = outcomes_of(course, 4096);
    ASSERT_EQ(outcomes.size(), 4096U);
    double rallies = 0;
    double sets = 0;
    double wins = 0;
    for (const Outcome outcome : outcomes) {
        rallies += outcome.rallies / 4096.0;
        sets += outcome.sets / 4096.0;
        wins += (outcome.winner == Winner::A ? 1 : 0) / 4096.0;
    }
    EXPECT_NEAR(rallies, mean(course.rallies()), .02);
    EXPECT_NEAR(sets, 2.5, .001);
    EXPECT_NEAR(wins, .5, .02);
}

}  // namespace
}  // namespace courthand::forecast
