// The wall clock of a table is set back and forth while it plays: by a person, or by the network
// that knows the time better. Nothing of the table counts on it.
#include <gtest/gtest.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <ctime>

#include "tests/integration/client/venue_kit.h"

namespace {

/// How far the wall clock of this process is off, in seconds.
std::atomic<std::int64_t> off{0};

}  // namespace

// In the place of the library's, for everything in this process.
extern "C" int clock_gettime(clockid_t id, timespec* time) noexcept {
    const auto result = static_cast<int>(syscall(SYS_clock_gettime, id, time));
    if (id == CLOCK_REALTIME || id == CLOCK_REALTIME_COARSE) time->tv_sec += off;
    return result;
}
extern "C" int gettimeofday(timeval* time, void*) noexcept {
    timespec now{};
    clock_gettime(CLOCK_REALTIME, &now);
    time->tv_sec = now.tv_sec;
    time->tv_usec = static_cast<suseconds_t>(now.tv_nsec / 1000);
    return 0;
}
extern "C" time_t time(time_t* out) noexcept {
    timespec now{};
    clock_gettime(CLOCK_REALTIME, &now);
    if (out != nullptr) *out = now.tv_sec;
    return now.tv_sec;
}

namespace courthand::client {
namespace {

using namespace std::chrono_literals;
using Wall = std::chrono::system_clock;

TEST(WallClock, SetBackAndForthFreezesNothing) {
    Venue venue;
    const auto folder = venue.enrol_table("table-1", 1);
    const auto table = open_table(folder);
    ASSERT_TRUE(table);
    std::string id;
    ASSERT_TRUE(eventually([&] { return !(id = table->next_match()).empty(); }));
    auto opened = table->open_match(id);
    ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
    auto& match = *std::get<0>(opened);
    const auto true_wall = Wall::now();
    off = -3600;
    ASSERT_LT(Wall::now(), true_wall - 30min) << "the clock can be set";
    off = 0;
    // Hours and more: the clock of a tablet whose battery was empty.
    std::uint64_t seed = 40;
    for (const auto step : {-600, 600, -7200, 7200, 86'400, -3000, 0}) {
        off = step;
        play_steps(match, ++seed, 6);
        EXPECT_TRUE(eventually([&] {
            return table->all_sent() && table->status(id).link == SyncStatus::Link::online;
        })) << step
            << " s off: " << table->status(id).last_error;
        // News of the venue come in as well: the watch lives.
        const std::string cursor = table->journal().setting(watch_cursor_setting);
        play_steps(match, ++seed, 1);
        EXPECT_TRUE(eventually([&] {
            return table->journal().setting(watch_cursor_setting) != cursor;
        })) << step
            << " s off: nothing comes in";
    }
    off = 0;
    ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
    EXPECT_EQ(venue.record(folder, id), bytes_of_journal(table->journal(), id));
}

}  // namespace
}  // namespace courthand::client
