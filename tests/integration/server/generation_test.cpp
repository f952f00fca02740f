// The generation of a database: kept by a restart, renewed by a copy and by a standby that takes
// over, and believed by the append.
#include <gtest/gtest.h>

#include <stdlib.h>

#include <string>
#include <string_view>

#include "server/domain/record_start.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"
#include "server/testing/standby.h"
#include "server/testing/test_database.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::server::testing {
namespace {

using testkit::eventually;

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

    postgres::Database pool{standby.beside(primary.dsn())};
    postgres::PgMatchStore store{pool};
    const auto append = [&](const AppendItem& item) {
        return store.append(desk.tournament, {&item, 1});
    };
    ASSERT_EQ(value_or_throw(append(two))[0].fate, Fate::appended);
    primary.kill9();
    // Its children answer for a moment longer.
    ASSERT_TRUE(eventually([&] { return !store.tournaments().ok(); }));
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

/// A database as the programs before schema 20 left it: two entries of epoch 1 by one device.
class OldDatabase {
  public:
    OldDatabase() {
        postgres::Database pool{database.dsn()};
        const Status made = pool.run("make an old schema", [&](pqxx::work& work) {
            work.exec(
                "create table schema_version (number integer primary key, name text not null, "
                "applied_at timestamptz not null default now())");
            for (const postgres::Migration& migration : postgres::migrations()) {
                if (migration.number >= 20) break;
                work.exec(std::string{migration.sql});
                work.exec_params("insert into schema_version (number, name) values ($1, $2)",
                                 migration.number, std::string{migration.name});
            }
            fill(work);
        });
        throw_if_failed(made);
    }

    /// An entry that goes on with the record, by a device whose grant of `epoch` is not here.
    AppendItem go_on(Epoch epoch) {
        AppendItem item;
        item.match = match;
        item.id = EntryId{new_uuid()};
        item.device = DeviceId{new_uuid()};
        item.epoch = epoch;
        item.number = 3;
        item.previous = last_;
        item.bytes = std::make_shared<const std::string>(to_text(item.id));
        item.hash = hash_of(*item.bytes);
        return item;
    }

    TestDatabase database;
    const TournamentId tournament{new_uuid()};
    const MatchId match{new_uuid()};

  private:
    static std::string hex(std::string_view bytes) {
        std::string text = "\\x";
        constexpr const char* digits = "0123456789abcdef";
        for (const char c : bytes) {
            const auto byte = static_cast<unsigned char>(c);
            text += digits[byte >> 4];
            text += digits[byte & 15];
        }
        return text;
    }
    static std::string hex(const Hash& hash) {
        return hex({reinterpret_cast<const char*>(hash.data()), hash.size()});
    }

    void fill(pqxx::work& work) {
        const std::string device = to_text(DeviceId{new_uuid()});
        work.exec_params(
            "insert into tournament (tournament_id, name, generation, feed_head) "
            "values ($1, 'Harbour Cup', $2, 2)",
            to_text(tournament), to_text(TournamentId{new_uuid()}));
        work.exec_params(
            "insert into match (tournament_id, match_id, number, first_name, second_name, format, "
            "profile, profile_hash, status, epoch, grant_id, writer, head_hash) values "
            "($1, $2, 1, 'Harbour Lights', 'Mill Lane', '{5,0,25,15,2,0,0,0,8}', "
            "'international-2025', '\\x0000000000000000', 1, 1, $3, $4, $5::bytea)",
            to_text(tournament), to_text(match), to_text(EntryId{new_uuid()}), device,
            hex(start_hash(match)));
        last_ = start_hash(match);
        for (int number = 1; number <= 2; ++number) {
            const std::string id = to_text(EntryId{new_uuid()});
            last_ = hash_of(id);
            work.exec_params(
                "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, "
                "hash, bytes, position) values ($1, $2, $3::int, 1, $4, $5, $6::bytea, $7::bytea, "
                "$3::int)",
                to_text(tournament), to_text(match), number, id, device, hex(last_), hex(id));
        }
        work.exec_params("update match set last_number = 2, head_hash = $1::bytea", hex(last_));
    }

    Hash last_{};
};

/// deploy/backup of one database and deploy/restore into another.
void back_up_and_restore(const std::string& from, const std::string& to) {
    const testkit::ScratchFolder scratch;
    const std::filesystem::path& folder = scratch.path();
    std::filesystem::create_directories(folder / "venue");
    const std::string deploy = COURTHAND_DEPLOY_FOLDER;
    const std::string log = " >" + (folder / "log").string() + " 2>&1 </dev/null";
    const std::string backup = deploy + "/backup --database '" + from + "' --authority " +
                               (folder / "venue").string() + " --to " +
                               (folder / "saved").string() + " --data " + folder.string() + log;
    EXPECT_EQ(std::system(backup.c_str()), 0) << backup;
    const std::string restore = deploy + "/restore --database '" + to + "' --from " +
                                (folder / "saved").string() + "/courthand-* --authority " +
                                (folder / "second").string() + " --data " + folder.string() + log;
    EXPECT_EQ(std::system(restore.c_str()), 0) << restore;
}

Fate fate_of(postgres::PgMatchStore& store, TournamentId tournament, const AppendItem& item) {
    return value_or_throw(store.append(tournament, {&item, 1}))[0].fate;
}

// The upgrade took every head for one of today, so that an epoch lost with the restore stayed lost.
TEST(Generation, ABackupOfAnOlderSchemaThatIsPutBackAndThenUpgradedTakesLostEpochs) {
    OldDatabase old;
    const std::string before = old.database.run("select generation from tournament");
    TestDatabase back;
    back_up_and_restore(old.database.dsn(), back.dsn());
    postgres::Database pool{back.dsn()};
    (void)value_or_throw(postgres::migrate(pool));
    EXPECT_NE(back.run("select generation from tournament"), before);
    EXPECT_EQ(back.run("select to_regclass('put_back_heads') is null"), "t") << "used up";
    postgres::PgMatchStore store{pool};
    EXPECT_EQ(fate_of(store, old.tournament, old.go_on(2)), Fate::appended);
}

TEST(Generation, AnUpgradeAloneTakesNoEpochThatWasNotGranted) {
    OldDatabase old;
    postgres::Database pool{old.database.dsn()};
    (void)value_or_throw(postgres::migrate(pool));
    postgres::PgMatchStore store{pool};
    EXPECT_EQ(fate_of(store, old.tournament, old.go_on(2)), Fate::branched);
}

TEST(Generation, WhatWasWrittenBetweenRestoreAndUpgradeIsOfToday) {
    OldDatabase old;
    TestDatabase back;
    back_up_and_restore(old.database.dsn(), back.dsn());
    back.run("update match set epoch = 2");  // the older program granted it anew
    postgres::Database pool{back.dsn()};
    (void)value_or_throw(postgres::migrate(pool));
    postgres::PgMatchStore store{pool};
    EXPECT_EQ(fate_of(store, old.tournament, old.go_on(3)), Fate::branched);
}

}  // namespace
}  // namespace courthand::server::testing
