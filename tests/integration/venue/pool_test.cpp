// Connections to the database: who asks much, or waits long for it, holds up neither the append nor
// the fold.
#include <gtest/gtest.h>

#include <stdlib.h>

#include <atomic>
#include <filesystem>
#include <optional>
#include <pqxx/pqxx>
#include <thread>
#include <vector>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "server/main/composition.h"
#include "server/main/pg_stores.h"
#include "server/store/postgres/migrations.h"
#include "server/testing/or_throw.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::server::testing {
namespace {

using testkit::eventually;

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
        EXPECT_TRUE(eventually([&] { return held_ == postgres::most_connections; }));
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

/// A whole server but for its network, on a database of its own.
class WholeServer {
  public:
    WholeServer() {
        (void)value_or_throw(postgres::migrate(foundation.database));
        tournament =
            value_or_throw(foundation.matches.create_tournament(TournamentId{new_uuid()}, "Cup"));
        authority.emplace(value_or_throw(
            auth::Authority::open(folder / "authority", std::chrono::system_clock::now())));
        stores.emplace(foundation, tournament.id);
        parts.emplace(Composition::Basis{stores->stores(), tournament, {"server", 1}, *authority},
                      [](const Status&) {});
        throw_if_failed(parts->start());
    }
    ~WholeServer() { parts.reset(); }
    WholeServer(const WholeServer&) = delete;
    WholeServer& operator=(const WholeServer&) = delete;

    TestDatabase database;
    Foundation foundation{database.dsn()};
    Tournament tournament;
    testkit::ScratchFolder scratch;
    const std::filesystem::path& folder = scratch.path();
    std::optional<auth::Authority> authority;
    std::optional<PgStores> stores;
    std::optional<Composition> parts;
};

TEST(Pool, WhoeverHoldsAllConnectionsHoldsUpNeitherAlertsNorRevocations) {
    WholeServer server;
    const EnrolledDevice table =
        enrol_device(server.database.dsn(), server.folder, auth::Seat::table, 1);
    // What a withdrawn device sent is refused for good and raises nothing: this is of another.
    const EnrolledDevice refused =
        enrol_device(server.database.dsn(), server.folder, auth::Seat::table, 2);
    const HeldPool held{server.foundation.database};
    // Withdrawn at another server.
    server.database.run("update device set revoked_at = now() where device_id = '" +
                        to_text(table.id) + "'");
    EXPECT_TRUE(eventually([&] { return server.parts->venue.devices().revoked_here(table.id); }));
    server.parts->refusals.refused(
        {MatchId{new_uuid()}, refused.id, 2, 3, Cause::unreadable, "", ServerTime{}});
    EXPECT_TRUE(eventually([&] {
        return server.database.run("select count(*) from alert_life") != "0";
    })) << "raised, and kept";
}

}  // namespace
}  // namespace courthand::server::testing
