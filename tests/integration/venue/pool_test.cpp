// Connections to the database: who asks much, or waits long for it, holds up neither the append nor
// the fold.
#include <gtest/gtest.h>

#include <atomic>
#include <pqxx/pqxx>
#include <thread>
#include <vector>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/main/composition.h"
#include "server/store/postgres/migrations.h"

namespace courthand::server::testing {
namespace {

/// Every connection that others than ingest and follower may have is held by somebody.
class HeldPool {
  public:
    explicit HeldPool(postgres::Database& database) {
        for (std::size_t i = 0; i < postgres::most_connections; ++i)
            threads_.emplace_back([this, &database] {
                (void)database.run("hold a connection", [this](pqxx::work&) {
                    ++held_;
                    while (!let_go_) std::this_thread::sleep_for(std::chrono::milliseconds{1});
                });
            });
        while (held_ < postgres::most_connections)
            std::this_thread::sleep_for(std::chrono::milliseconds{1});
    }
    ~HeldPool() {
        let_go_ = true;
        for (std::thread& thread : threads_) thread.join();
    }
    HeldPool(const HeldPool&) = delete;
    HeldPool& operator=(const HeldPool&) = delete;

  private:
    std::atomic<std::size_t> held_{0};
    std::atomic<bool> let_go_{false};
    std::vector<std::thread> threads_;
};

TEST(Pool, WhoeverHoldsAllConnectionsHoldsUpNeitherAppendNorFeed) {
    TestDatabase database;
    Foundation foundation{database.dsn()};
    (void)value_or_throw(postgres::migrate(foundation.database));
    const TournamentId cup =
        value_or_throw(foundation.matches.create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    const HeldPool held{foundation.database};
    const auto busy = foundation.matches.matches(cup);
    EXPECT_EQ(busy.status().code, StatusCode::exhausted) << "in time, not for ever";
    EXPECT_NE(busy.status().text().find("look at the database"), std::string::npos) << "the cure";
    EXPECT_TRUE(foundation.path.append(cup, {}).ok());
    FeedQuery query;
    query.tournament = cup;
    EXPECT_TRUE(foundation.path.read_feed(query).ok());
}

}  // namespace
}  // namespace courthand::server::testing
