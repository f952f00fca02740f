// The lives of alerts in PostgreSQL: one transaction with their notices, one first server.
#include <gtest/gtest.h>

#include <set>

#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"
#include "server/testing/query_plan.h"
#include "server/testing/test_database.h"
#include "server/venue/postgres/pg_alert_store.h"

namespace courthand::server::venue {
namespace {

using alerts::LifeEntry;
using What = LifeEntry::What;
using testing::TestDatabase;

LifeEntry step(const std::string& id, std::uint32_t number, What what, std::string by = {}) {
    LifeEntry entry;
    entry.id = id;
    entry.number = number;
    entry.what = what;
    entry.by = std::move(by);
    // Not a whole microsecond: the database keeps no more.
    entry.at = alerts::Instant{} + std::chrono::hours{500'000} + std::chrono::nanoseconds{1234};
    entry.ends = what == What::ruled || what == What::cleared;
    if (what == What::opened) {
        entry.condition.emplace();
        entry.condition->id = id;
        entry.condition->kind = alerts::Kind::wrong_server;
        entry.condition->code = "wrong-server";
        entry.condition->asking.value.bytes[0] = 9;
    }
    return entry;
}

FeedNotice notice(std::uint8_t number) {
    FeedNotice made;
    made.kind = FeedItem::Kind::ruling;
    made.id.value.bytes[0] = number;
    made.bytes = "words for the table";
    return made;
}

class AlertStoreTest : public ::testing::Test {
  protected:
    void SetUp() override {
        (void)value_or_throw(postgres::migrate(connections));
        tournament = TournamentId{new_uuid()};
        (void)value_or_throw(matches.create_tournament(tournament, "Harbour Cup"));
        one = make_pg_alert_store(connections, tournament);
        other = make_pg_alert_store(more_connections, tournament);
    }
    std::string count(const std::string& table) const {
        return database.run("select count(*) from " + table);
    }

    TestDatabase database;
    postgres::Database connections{database.dsn()};
    postgres::Database more_connections{database.dsn()};
    postgres::PgMatchStore matches{connections};
    postgres::PgMatchStore other_matches{more_connections};
    TournamentId tournament;
    std::unique_ptr<alerts::AlertStore> one;
    std::unique_ptr<alerts::AlertStore> other;
};

TEST_F(AlertStoreTest, ARulingAndItsNoticeAreOneTransaction) {
    const std::vector life{step("m/1", 1, What::opened), step("m/1", 2, What::ruled, "head")};
    ASSERT_TRUE(one->append(life, std::vector{notice(1)}).ok());
    ASSERT_TRUE(one->append(life, std::vector{notice(1)}).ok()) << "sent again after a lost answer";
    EXPECT_EQ(count("alert_life"), "2");
    EXPECT_EQ(count("feed where kind = 4"), "1");

    // A notice that the feed cannot take: then the ruling is not kept either.
    FeedNotice broken = notice(2);
    broken.kind = static_cast<FeedItem::Kind>(77);
    const std::vector next{step("m/2", 1, What::opened), step("m/2", 2, What::ruled, "head")};
    EXPECT_FALSE(one->append(next, std::vector{broken}).ok());
    EXPECT_EQ(count("alert_life"), "2");
}

// Steps of several alerts are one statement: some may stand there already, after a lost answer.
TEST_F(AlertStoreTest, OfManyStepsThoseThatStandThereAreRecognisedAndTheOthersKept) {
    const std::vector first{step("m/2", 1, What::opened), step("m/1", 1, What::opened)};
    ASSERT_TRUE(one->append(first, {}).ok());
    std::vector more = first;
    more.push_back(step("m/2", 2, What::claimed, "O'Hara \\ \"head\""));
    more.push_back(step("m/2", 3, What::ruled, "head"));
    more.push_back(step("m/3", 1, What::opened));
    ASSERT_TRUE(one->append(more, {}).ok());
    EXPECT_EQ(count("alert_life"), "5");
    EXPECT_EQ(database.run("select by from alert_life where number = 2"), "O'Hara \\ \"head\"");
    EXPECT_EQ(database.run("select string_agg(alert_id || ':' || number || ':' || live, ' ' "
                           "order by alert_id) from alert_head"),
              "m/1:1:true m/2:3:false m/3:1:true");
    // One of many that another server was first with: none of them is kept.
    EXPECT_EQ(other
                  ->append(std::vector{step("m/4", 1, What::opened),
                                       step("m/1", 1, What::claimed, "another")},
                           {})
                  .code,
              StatusCode::conflict);
    EXPECT_EQ(count("alert_life"), "5");
}

TEST_F(AlertStoreTest, TheSecondServerIsToldThatTheFirstOneHasTheNumber) {
    ASSERT_TRUE(one->append(std::vector{step("m/1", 1, What::opened)}, {}).ok());
    ASSERT_TRUE(one->append(std::vector{step("m/1", 2, What::claimed, "head")}, {}).ok());
    const std::vector late{step("m/0", 1, What::opened), step("m/1", 2, What::ruled, "deputy")};
    EXPECT_EQ(other->append(late, std::vector{notice(1)}).code, StatusCode::conflict);
    EXPECT_EQ(count("alert_life"), "2") << "all or none";
    EXPECT_EQ(count("feed where kind = 4"), "0");
    const std::vector<alerts::AlertId> ids{"m/1", "m/nobody"};
    const auto life = other->load(ids);
    ASSERT_TRUE(life.ok());
    ASSERT_EQ(life->size(), 2U);
    EXPECT_EQ(life->back().by, "head");
    EXPECT_EQ(life->front().condition->asking.value.bytes[0], 9);
}

TEST_F(AlertStoreTest, AStartReadsWhatLives) {
    for (int i = 0; i < 50; ++i) {
        const std::string id = "old/" + std::to_string(i);
        ASSERT_TRUE(
            one->append(std::vector{step(id, 1, What::opened), step(id, 2, What::cleared)}, {})
                .ok());
    }
    ASSERT_TRUE(one->append(std::vector{step("m/1", 1, What::opened)}, {}).ok());
    const auto live = one->load_live();
    ASSERT_TRUE(live.ok());
    ASSERT_EQ(live->size(), 1U);
    EXPECT_EQ(live->front().id, "m/1");
    // Raised again: it lives again.
    ASSERT_TRUE(one->append(std::vector{step("old/7", 3, What::opened)}, {}).ok());
    EXPECT_EQ(one->load_live()->size(), 4U);
}

TEST_F(AlertStoreTest, NoStatementReadsTheLivesOfAllAlertsThatEverWere) {
    database.run(
        "insert into alert_life (tournament_id, alert_id, number, what, at) select tournament_id, "
        "'m/' || n, s, 0, now() from tournament, generate_series(1, 10000) n, generate_series(1, "
        "4) s");
    database.run(
        "insert into alert_head (tournament_id, alert_id, number, live) select tournament_id, "
        "'m/' || n, 4, n % 100 = 0 from tournament, generate_series(1, 10000) n");
    database.run("analyze");
    const auto opened = connections.open();
    ASSERT_TRUE(opened.connection) << opened.status.text();
    // Of alert_head, the index of those that live is read as a whole: that is what it is for.
    std::set<std::string> looked_at;
    for (const postgres::Statement& statement : connections.statements()) {
        if (!statement.name.starts_with("alert_")) continue;
        const std::string plan = testing::plan_of(*opened.connection, statement);
        EXPECT_EQ(testing::scans_in(plan, {"alert_life"}), "") << statement.name << '\n' << plan;
        looked_at.insert(statement.name);
    }
    EXPECT_EQ(looked_at, (std::set<std::string>{"alert_life_live", "alert_life_of",
                                                "alert_life_same", "alert_lives_add"}))
        << "all that there are";
}

// A plan lives as long as its connection: it is made when the tables are empty, too.
TEST_F(AlertStoreTest, LivesAreFoundByTheIdOfTheirAlertWhateverThePlannerKnows) {
    const auto found_by_id = [&](const std::string& when) {
        const auto opened = connections.open();
        ASSERT_TRUE(opened.connection) << opened.status.text();
        for (const postgres::Statement& statement : connections.statements()) {
            if (!statement.name.starts_with("alert_life_of") &&
                !statement.name.starts_with("alert_life_live"))
                continue;
            const std::string plan = testing::plan_of(*opened.connection, statement);
            EXPECT_NE(plan.find("alert_id = "), std::string::npos) << when << '\n' << plan;
            EXPECT_EQ(testing::scans_in(plan, {"alert_life", "alert_life l"}), "")
                << when << '\n'
                << statement.name << '\n'
                << plan;
            EXPECT_EQ(plan.find("Filter"), std::string::npos) << when << '\n' << plan;
            EXPECT_EQ(plan.find("Sort"), std::string::npos) << when << '\n' << plan;
        }
    };
    found_by_id("new tables");
    database.run(
        "insert into alert_life (tournament_id, alert_id, number, what, at) select tournament_id, "
        "'m/' || n, s, 0, now() from tournament, generate_series(1, 9000) n, generate_series(1, "
        "4) s");
    found_by_id("they have grown");
    database.run("analyze");
    found_by_id("and were analysed");
}

}  // namespace
}  // namespace courthand::server::venue
