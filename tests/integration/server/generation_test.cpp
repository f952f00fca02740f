// The generation of a database: kept by a restart, renewed by a copy and by a standby that takes
// over, and believed by the append.
#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <thread>

#include "server/domain/record_start.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"

namespace courthand::server::testing {
namespace {

/// A store with one match, and entries of one table.
class Desk {
  public:
    explicit Desk(const std::string& dsn) : pool_{dsn} {
        (void)value_or_throw(postgres::migrate(pool_));
    }
    void begin() {
        tournament = value_or_throw(store.create_tournament(TournamentId{new_uuid()}, "Cup")).id;
        MatchPlan plan;
        plan.key = {tournament, match};
        plan.first.name = "Harbour Lights";
        plan.second.name = "Mill Lane";
        plan.profile = "international-2025";
        (void)value_or_throw(store.create_match(plan));
    }
    AppendItem next() {
        AppendItem item;
        item.match = match;
        item.id = EntryId{new_uuid()};
        item.device = device;
        item.epoch = 1;
        item.number = ++number_;
        item.previous = hash_;
        item.bytes = std::make_shared<const std::string>(to_text(item.id));
        item.hash = hash_ = hash_of(*item.bytes);
        return item;
    }
    Result<std::vector<AppendResult>> append(const AppendItem& item) {
        return store.append(tournament, {&item, 1});
    }
    Uuid generation() { return value_or_throw(store.tournaments()).front().generation; }

  private:
    postgres::Database pool_;

  public:
    postgres::PgMatchStore store{pool_};
    TournamentId tournament;
    const MatchId match{new_uuid()};
    const DeviceId device{new_uuid()};

  private:
    EntryNumber number_ = 0;
    Hash hash_ = start_hash(match);
};

TEST(Generation, ARestartOfTheClusterKeepsIt) {
    PrivateCluster cluster;
    cluster.start();
    Desk desk{cluster.dsn()};
    desk.begin();
    const Uuid before = desk.generation();
    ASSERT_TRUE(desk.append(desk.next()).ok());
    cluster.kill9();
    cluster.start();
    EXPECT_EQ(Desk{cluster.dsn()}.generation(), before);
    EXPECT_EQ(value_or_throw(desk.append(desk.next()))[0].fate, Fate::appended);
    EXPECT_EQ(desk.generation(), before);
}

TEST(Generation, ACopyInAnotherDatabaseGetsAnother) {
    TestDatabase database;
    Uuid before;
    {
        Desk desk{database.dsn()};
        desk.begin();
        ASSERT_TRUE(desk.append(desk.next()).ok());
        before = desk.generation();
    }
    const std::string copy = database.name() + "_copy";
    TestDatabase elsewhere;  // one cannot copy from inside
    elsewhere.run("create database " + copy + " template " + database.name());
    {
        Desk desk{with_database(database.dsn(), copy)};
        const Uuid after = desk.generation();
        EXPECT_NE(after, before);
        EXPECT_EQ(Desk{with_database(database.dsn(), copy)}.generation(), after) << "once only";
    }
    EXPECT_EQ(Desk{database.dsn()}.generation(), before);
    elsewhere.run("drop database " + copy + " with (force)");
}

/// A copy of a running cluster that follows nobody: a standby that is behind.
class Standby {
  public:
    explicit Standby(const PrivateCluster& primary) : port_{free_port()} {
        folder_ = primary.folder() / "standby";
        const std::string secret = (primary.folder() / "data/postgres/admin.secret").string();
        command("install -d -m 700 $owner " + folder_.string());
        command("PGPASSWORD=$(cat " + secret + ") $as \"$bin/pg_basebackup\" -D " +
                folder_.string() + " -h 127.0.0.1 -p " + std::to_string(primary.port()) +
                " -U venue_admin -X stream -c fast");
        command("$as touch " + (folder_ / "standby.signal").string());
        control("start");
    }
    ~Standby() {
        try {
            control("-m immediate stop");
        } catch (const std::exception& error) {
            std::fprintf(stderr, "%s\n", error.what());
        }
    }
    Standby(const Standby&) = delete;
    Standby& operator=(const Standby&) = delete;

    void promote() { control("promote"); }
    [[nodiscard]] int port() const noexcept { return port_; }

  private:
    void control(const std::string& words) const {
        command("$as \"$bin/pg_ctl\" -w -D " + folder_.string() + " -l " +
                (folder_ / "log").string() +
                " -o \"-c listen_addresses=127.0.0.1 -c unix_socket_directories='' -p " +
                std::to_string(port_) + "\" " + words);
    }
    static void command(const std::string& line) {
        const std::string shell =
            "bin=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)\n"
            "as= owner=\n"
            "if [ \"$(id -u)\" = 0 ]; then as='runuser -u postgres --' owner='-o postgres'; fi\n"
            "cd / && " +
            line + " >/dev/null 2>&1 </dev/null";
        if (std::system(shell.c_str()) != 0) throw std::runtime_error{line + " failed"};
    }

    std::filesystem::path folder_;
    int port_ = 0;
};

/// The DSN with another port beside its own; the first that takes changes is used.
std::string with_second_port(const std::string& dsn, int first, int second) {
    const std::string here = "127.0.0.1:" + std::to_string(first);
    std::string both = dsn;
    return both.replace(both.find(here), here.size(),
                        here + ",127.0.0.1:" + std::to_string(second));
}

TEST(Generation, AStandbyThatTakesOverGetsAnotherAndOldHeadsAreNotTrusted) {
    PrivateCluster primary;
    primary.start();
    Desk first{primary.dsn()};
    first.begin();
    const Uuid before = first.generation();
    Standby standby{primary};
    Desk& desk = first;
    const AppendItem one = desk.next();
    const AppendItem two = desk.next();
    const AppendItem three = desk.next();
    ASSERT_EQ(value_or_throw(desk.append(one))[0].fate, Fate::appended);

    const std::string both = with_second_port(primary.dsn(), primary.port(), standby.port());
    postgres::Database pool{both};
    postgres::PgMatchStore store{pool};
    const auto append = [&](const AppendItem& item) {
        return store.append(desk.tournament, {&item, 1});
    };
    ASSERT_EQ(value_or_throw(append(two))[0].fate, Fate::appended);
    primary.kill9();
    // Its children answer for a moment longer.
    while (store.tournaments().ok()) std::this_thread::sleep_for(std::chrono::milliseconds{10});
    // The standby knows nothing of entry 1 and 2.
    EXPECT_EQ(append(three).status().code, StatusCode::unavailable) << "a standby takes nothing";
    standby.promote();
    const auto after = value_or_throw(append(three));
    EXPECT_EQ(after[0].fate, Fate::gap);
    EXPECT_EQ(after[0].wanted, 1u);
    EXPECT_NE(value_or_throw(store.tournaments()).front().generation, before);
    for (const AppendItem& item : {one, two, three})
        EXPECT_EQ(value_or_throw(append(item))[0].fate, Fate::appended);
}

}  // namespace
}  // namespace courthand::server::testing
