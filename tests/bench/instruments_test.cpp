// The instruments of the measurements, checked against exact values.
#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <vector>

#include "tests/bench/distribution.h"
#include "tests/bench/process_course.h"
#include "tests/bench/sightings.h"
#include "tests/bench/timetable.h"

namespace courthand::bench {
namespace {

using std::chrono::microseconds;

TEST(Distribution, OfNothingIsZero) {
    const Distribution none;
    EXPECT_EQ(none.count(), 0U);
    EXPECT_EQ(none.quantile_us(0.99), 0);
}

TEST(Distribution, QuantilesAreAtMostOneSixtyFourthTooHighAndNeverTooLow) {
    Distribution distribution;
    std::vector<double> exact;
    std::uint64_t value = 1;
    for (int i = 0; i < 5000; ++i) {
        // From microseconds to hours, in no order.
        value = value * 6364136223846793005U + 1442695040888963407U;
        const auto us = static_cast<std::int64_t>((value >> 28) >> (i % 35));
        distribution.add(microseconds{us});
        exact.push_back(static_cast<double>(us));
    }
    std::sort(exact.begin(), exact.end());
    for (const double share : {0.001, 0.25, 0.5, 0.9, 0.99}) {
        const double right = exact[static_cast<std::size_t>(share * 5000) - 1];
        EXPECT_GE(distribution.quantile_us(share), right);
        EXPECT_LE(distribution.quantile_us(share), right * (1 + 1.0 / 64) + 1);
    }
    EXPECT_EQ(distribution.count(), 5000U);
}

TEST(Distribution, KeepsSmallValuesAndTheLongestExactly) {
    Distribution distribution;
    for (const int us : {3, 100, 127, 777'777}) distribution.add(microseconds{us});
    EXPECT_EQ(distribution.quantile_us(0.25), 3);
    EXPECT_EQ(distribution.quantile_us(0.75), 127);
    EXPECT_EQ(distribution.quantile_us(1), 777'777);
    EXPECT_EQ(distribution.longest_us(), 777'777);
}

TEST(Distribution, TwoTogetherCountAsOne) {
    Distribution one;
    Distribution other;
    for (int us = 1; us <= 50; ++us) one.add(microseconds{us});
    for (int us = 51; us <= 100; ++us) other.add(microseconds{us});
    one.add(other);
    EXPECT_EQ(one.count(), 100U);
    EXPECT_EQ(one.quantile_us(0.5), 50);
    EXPECT_EQ(one.quantile_us(0.99), 99);
}

TEST(ProcessCourse, GrowthIsThatAfterTheFirstThird) {
    ProcessCourse course{getpid()};
    // Fast at first, then half a megabyte a minute.
    for (int minute = 0; minute <= 30; ++minute)
        course.add({static_cast<double>(minute),
                    minute < 10 ? 50.0 + 5 * minute : 100 + 0.5 * (minute - 10), 6.0 * minute, 1});
    EXPECT_NEAR(course.rss_mb_per_minute(), 0.5, 1e-9);
    EXPECT_DOUBLE_EQ(course.most_rss_mb(), 110);
    EXPECT_DOUBLE_EQ(course.median_rss_mb(), 102.5);
    EXPECT_NEAR(course.cores(), 0.1, 1e-9);
}

TEST(ProcessCourse, LooksAtALivingProcess) {
    ProcessCourse course{getpid()};
    const ProcessSample& sample = course.look();
    EXPECT_GT(sample.rss_mb, 0.5);
    EXPECT_GE(sample.threads, 1U);
}

TEST(Sightings, KeepTheTimesOfTwoMatchesOfACourt) {
    Sightings sightings;
    const Sightings::Clock::time_point at{microseconds{7}};
    sightings.made(1, "first", 2, at);
    sightings.made(1, "second", 1, at);
    EXPECT_EQ(sightings.made_at(1, "first", 2), at);
    EXPECT_EQ(sightings.made_at(1, "first", 1), std::nullopt) << "not measured";
    EXPECT_EQ(sightings.made_at(2, "first", 2), std::nullopt);
    sightings.made(1, "third", 1, at);
    EXPECT_EQ(sightings.made_at(1, "first", 2), std::nullopt) << "forgotten";
    EXPECT_EQ(sightings.made_at(1, "second", 1), at);
}

TEST(Timetable, ActsInTheOrderOfTheirTimes) {
    std::mutex mutex;
    std::condition_variable wake;
    std::vector<int> acted;
    const auto act = [&](int number) {
        return [&, number] {
            const std::scoped_lock lock{mutex};
            acted.push_back(number);
            wake.notify_one();
        };
    };
    Timetable timetable;
    const auto now = Timetable::Clock::now();
    timetable.at(now + std::chrono::milliseconds{40}, act(2));
    timetable.at(now + std::chrono::milliseconds{20}, act(1));
    timetable.at(now + std::chrono::hours{1}, act(3));
    {
        std::unique_lock lock{mutex};
        wake.wait(lock, [&] { return acted.size() == 2; });
    }
    timetable.stop();
    EXPECT_EQ(acted, (std::vector<int>{1, 2})) << "what is to come is dropped";
}

}  // namespace
}  // namespace courthand::bench
