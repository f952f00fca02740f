// What a database without its standby has kept by itself alone, and does not confirm.
#include <gtest/gtest.h>

#include "server/audit/postgres/pg_audit_store.h"
#include "server/auth/postgres/pg_enrolment_store.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"
#include "standby_cluster.h"

namespace courthand::server::testing {
namespace {

constexpr postgres::PoolLimits short_limit{2, std::chrono::milliseconds{5000},
                                           std::chrono::milliseconds{200}};

class Unconfirmed : public ::testing::Test {
  protected:
    Unconfirmed() {
        (void)value_or_throw(postgres::migrate(database_));
        (void)value_or_throw(matches_.create_tournament(tournament_, "Harbour Cup"));
    }
    /// PostgreSQL takes a moment to see it.
    void lose_standby() {
        cluster_.lose_standby();
        while (matches_.renew_generation(tournament_).ok()) {
        }
    }
    std::string count(const std::string& table) {
        return value_or_throw(database_.perform("count", [&](pqxx::work& work) {
            return std::string{work.exec("select count(*) from " + table)[0][0].c_str()};
        }));
    }

    StandbyCluster cluster_;
    postgres::Database database_{cluster_.dsn(), short_limit};
    postgres::PgMatchStore matches_{database_};
    TournamentId tournament_{new_uuid()};
};

TEST_F(Unconfirmed, ARowOfTheAuditStandsThereOnceHoweverOftenItIsHandedOver) {
    const auto audit = audit::make_pg_audit_store(database_, tournament_);
    lose_standby();
    audit::AuditEntry row{0,   std::chrono::system_clock::now(), {}, "enrol", "", "no such code",
                          true};
    row.id = new_uuid();
    EXPECT_EQ(audit->add(row).code, StatusCode::in_doubt);
    (void)audit->add(row);
    (void)audit->add(row);
    EXPECT_EQ(count("audit"), "1");
}

TEST_F(Unconfirmed, ASnapshotIsACacheAndWaitsForNoStandby) {
    MatchPlan plan;
    plan.key = {tournament_, MatchId{new_uuid()}};
    plan.format = {25, 25, 15};
    plan.profile = "international-2025";
    (void)value_or_throw(matches_.create_match(plan));
    lose_standby();
    const Status kept =
        matches_.keep_snapshot(tournament_, {plan.key.match, 3, Hash{}, "form", "bytes"});
    EXPECT_TRUE(kept.ok()) << kept.text();
    EXPECT_EQ(count("match_snapshot"), "1");
}

TEST_F(Unconfirmed, ACodeThatWasUsedIsNotReadBackAsIfThatWereKept) {
    const auto store = auth::make_pg_enrolment_store(database_, tournament_);
    const auto now = std::chrono::system_clock::now();
    auth::StoredCode code;
    code.hash = std::string(32, 'h');
    code.expires = now + std::chrono::minutes{5};
    code.court = 1;
    throw_if_failed(store->add_code(code, now));
    lose_standby();
    const auth::Device device{
        {DeviceId{new_uuid()}, auth::Seat::table, 1}, "table", now, std::nullopt, "key"};
    const auto fate = [&] { return store->use_code(code.hash, device, now).status().code; };
    EXPECT_EQ(fate(), StatusCode::in_doubt);
    EXPECT_EQ(fate(), StatusCode::in_doubt) << "asked once more, it waits once more";
    cluster_.give_up_standby();
    EXPECT_EQ(fate(), StatusCode::ok);
    EXPECT_EQ(count("device"), "1");
}

}  // namespace
}  // namespace courthand::server::testing
