// Waiting for what another thread, program or server brings about.
#pragma once

#include <gtest/gtest.h>

#include <chrono>
#include <thread>

namespace courthand::testkit {

/// How long a test waits at most. Only a test that has failed meets it: it is long enough for the
/// sanitizers on a machine that runs other tests beside it.
inline constexpr std::chrono::seconds patience{60};
/// The same where another program has to start, or a server has to learn something of another one.
inline constexpr std::chrono::seconds patience_with_programs{150};
/// The time between two looks.
inline constexpr std::chrono::milliseconds look_every{5};

/// Looks until `holds()`. For EXPECT_TRUE and ASSERT_TRUE, which name what was waited for; the
/// failure names the limit. Not for screens: their windows must live meanwhile.
template <class Holds>
[[nodiscard]] ::testing::AssertionResult eventually(Holds holds,
                                                    std::chrono::milliseconds limit = patience) {
    const auto end = std::chrono::steady_clock::now() + limit;
    while (!holds()) {
        if (std::chrono::steady_clock::now() >= end)
            return ::testing::AssertionFailure()
                   << "it has not come within " << limit.count() << " ms";
        std::this_thread::sleep_for(look_every);
    }
    return ::testing::AssertionSuccess();
}

}  // namespace courthand::testkit
