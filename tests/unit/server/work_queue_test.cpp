// Lanes of work: bounded, apart from each other, and not ended by a job that fails.
#include <gtest/gtest.h>

#include <algorithm>
#include <future>
#include <stdexcept>
#include <string>
#include <vector>

#include "server/domain/work_queue.h"
#include "tests/testkit/told_faults.h"

namespace courthand::server {
namespace {

void run(WorkQueue& work, Lane lane) {
    std::promise<void> done;
    ASSERT_TRUE(work.submit(lane, [&] { done.set_value(); }));
    done.get_future().wait();
}

// Fault 14: any other exception ended the server.
TEST(WorkQueue, AJobThatThrowsCostsOneLineOfTheLog) {
    testing::ToldFaults told;
    {
        WorkQueue work;
        for (const Lane lane :
             {Lane::reads, Lane::catch_up, Lane::writes, Lane::enrolment, Lane::record}) {
            ASSERT_TRUE(work.submit(lane, [] { throw std::runtime_error{"out of luck"}; }));
            ASSERT_TRUE(work.submit(lane, [] { throw 7; }));
            run(work, lane);
        }
    }
    const auto said = told.said();
    ASSERT_EQ(said.size(), 2 * WorkQueue::lanes);
    EXPECT_EQ(std::count(said.begin(), said.end(), "out of luck"),
              static_cast<std::ptrdiff_t>(WorkQueue::lanes));
}

// Fault 20: four threads served everything, and one that waited held up the rest.
TEST(WorkQueue, WhatWaitsInOneLaneDoesNotHoldUpAnother) {
    WorkQueue work;
    std::promise<void> go;
    const std::shared_future<void> gone = go.get_future().share();
    for (const Lane blocked : {Lane::catch_up, Lane::enrolment, Lane::record, Lane::writes})
        for (int i = 0; i < 10; ++i) ASSERT_TRUE(work.submit(blocked, [gone] { gone.wait(); }));
    run(work, Lane::reads);
    go.set_value();
}

TEST(WorkQueue, EachLaneHasALimitOfItsOwn) {
    WorkQueue::LaneLimits limits{{{1, 2}, {1, 2}, {1, 2}, {1, 2}}};
    WorkQueue work{limits};
    std::promise<void> go;
    const std::shared_future<void> gone = go.get_future().share();
    std::promise<void> begun;
    ASSERT_TRUE(work.submit(Lane::enrolment, [&begun, gone] {
        begun.set_value();
        gone.wait();
    }));
    begun.get_future().wait();
    ASSERT_TRUE(work.submit(Lane::enrolment, [] {}));
    ASSERT_TRUE(work.submit(Lane::enrolment, [] {}));
    EXPECT_FALSE(work.submit(Lane::enrolment, [] {})) << "strangers fill their own lane only";
    run(work, Lane::writes);
    go.set_value();
}

}  // namespace
}  // namespace courthand::server
