// The book of alerts on a store that is away, slow to be reached, or shared with another server.
#include <gtest/gtest.h>

#include "server/venue/kept_book.h"

namespace courthand::server::venue {
namespace {

using alerts::Condition;
using alerts::Kind;
using alerts::Now;
using What = alerts::LifeEntry::What;

Now at(int second) {
    const auto since = std::chrono::hours{1000} + std::chrono::seconds{second};
    return {alerts::Instant{} + since, alerts::Steady{} + since};
}

std::vector<Condition> faults(std::size_t count, const std::string& prefix = "m/") {
    std::vector<Condition> all;
    for (std::size_t i = 0; i < count; ++i) {
        Condition& made = all.emplace_back();
        made.id = prefix + std::to_string(i);
        made.kind = Kind::wrong_server;
        made.code = "wrong-server";
    }
    return all;
}

const Status away = Status::failed(StatusCode::unavailable, "the database is away");

TEST(KeptBook, WhatHappensWhileTheDatabaseIsAwayIsKeptWhenItIsBack) {
    alerts::MemoryAlertStore store;
    KeptBook book{store};
    store.fail_with(away);
    book.observe("m", faults(3), at(0));
    EXPECT_FALSE(book.keep(at(0)).ok());
    EXPECT_EQ(book.book().alerts().size(), 3U) << "people see them all the same";
    store.fail_with(Status::fine());
    EXPECT_TRUE(book.keep(at(1)).ok());
    EXPECT_EQ(store.lives().size(), 3U);
    EXPECT_EQ(book.waiting(), 0U);
}

TEST(KeptBook, WhatWaitsForTheDatabaseIsBounded) {
    alerts::MemoryAlertStore store;
    KeptBook book{store};
    store.fail_with(away);
    book.observe("m", faults(KeptBook::most_waiting + 50), at(0));
    EXPECT_EQ(book.waiting(), KeptBook::most_waiting);
    store.fail_with(Status::fine());
    EXPECT_TRUE(book.keep(at(1)).ok());
    EXPECT_EQ(store.lives().size(), KeptBook::most_waiting);
}

TEST(KeptBook, WhereAnotherServerWasFirstItsWordHoldsAndTheOthersAreKept) {
    alerts::MemoryAlertStore store;
    KeptBook first{store};
    KeptBook second{store};
    first.observe("m", faults(1), at(0));
    ASSERT_TRUE(first.keep(at(0)).ok());
    second.observe("m", faults(3), at(5));
    ASSERT_TRUE(second.keep(at(5)).ok());
    EXPECT_EQ(store.lives().size(), 3U);
    EXPECT_EQ(second.book().find("m/0")->since, at(0).wall) << "as the first server saw it";
    second.tick(at(6));
    EXPECT_EQ(second.waiting(), 0U) << "nothing is raised again";
}

TEST(KeptBook, AnAlertThatHasLeftMemoryIsStillKnownToHaveEnded) {
    alerts::MemoryAlertStore store;
    KeptBook book{store};
    book.observe("m", faults(1), at(0));
    const auto rule = [&](const alerts::AlertBook& now) {
        return now.rule("m/0", true, "", "head official", at(1));
    };
    const auto nothing = [](const alerts::Alert&, const alerts::LifeEntry&) {
        return std::vector<FeedNotice>{};
    };
    ASSERT_TRUE(std::holds_alternative<alerts::Alert>(book.act("m/0", rule, nothing, at(1))));
    KeptBook after_a_start{store};
    ASSERT_TRUE(after_a_start.load(at(9)).ok());
    EXPECT_TRUE(after_a_start.book().alerts().empty());
    const auto again = after_a_start.act("m/0", rule, nothing, at(9));
    ASSERT_TRUE(std::holds_alternative<alerts::ActRefusal>(again));
    EXPECT_EQ(std::get<alerts::ActRefusal>(again).kind, alerts::ActRefusal::Kind::ended);
    EXPECT_TRUE(after_a_start.book().alerts().empty()) << "it was only looked up";
}

}  // namespace
}  // namespace courthand::server::venue
