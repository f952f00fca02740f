// The PostgreSQL twin keeps the promises of the store of a tournament's record.
#include "server/tournament/postgres/pg_fact_store.h"

#include "fact_store_contract.h"
#include "server/audit/postgres/pg_audit_store.h"
#include "server/domain/record_start.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/query_plan.h"
#include "server/testing/test_database.h"

namespace courthand::server::tournament {
namespace {

class PgTwin final : public FactStoreTwin {
  public:
    PgTwin() { (void)value_or_throw(postgres::migrate(connections_)); }
    FactStore& facts() override { return facts_; }
    server::testing::TestDatabase& database() { return database_; }
    postgres::Database& connections() { return connections_; }
    MatchStore& feed() override { return feed_; }
    /// Holds each act open between its look at the ends and its fact, so that others come between
    /// if they can.
    void hold_acts_open() {
        database_.run(
            "create function held_open() returns trigger language plpgsql as $$ begin "
            "perform pg_sleep(0.005); return new; end $$");
        database_.run(
            "create trigger held_open before insert on tournament_fact for each row "
            "execute function held_open()");
    }

  private:
    server::testing::TestDatabase database_;
    postgres::Database connections_{database_.dsn()};
    postgres::PgMatchStore feed_{connections_};
    PgFactStore facts_{connections_, feed_};
};

}  // namespace

std::unique_ptr<FactStoreTwin> make_fact_twin() {
    return std::make_unique<PgTwin>();
}

namespace {

/// The next entry behind `head`; the store does not read its bytes.
AppendItem entry_behind(const MatchHead& head, MatchId match, DeviceId device) {
    AppendItem item;
    item.match = match;
    item.id = EntryId{new_uuid()};
    item.device = device;
    item.epoch = 1;
    item.number = head.last + 1;
    item.previous = head.hash;
    item.bytes = std::make_shared<const std::string>(to_text(item.id));
    item.hash = hash_of(*item.bytes);
    return item;
}

std::vector<FeedItem> whole_feed(MatchStore& store, TournamentId tournament) {
    std::vector<FeedItem> all;
    FeedQuery query;
    query.tournament = tournament;
    for (;;) {
        const FeedPage page = value_or_throw(store.read_feed(query));
        if (page.items.empty()) return all;
        all.insert(all.end(), page.items.begin(), page.items.end());
        query.after = all.back().position;
    }
}

/// A table writes all the time and a desk confirms: whatever the moment, a fact that was kept
/// stands in the feed right where its end was the end. Both races are met: an entry that comes
/// between the desk's look and its act, and one that comes while the store is at the act.
TEST_F(FactStoreContract, NoEntryComesBetweenTheEndAndTheFactThatRestsOnIt) {
    constexpr std::size_t entries = 300;
    static_cast<PgTwin&>(*twin_).hold_acts_open();
    MatchPlan plan;
    plan.key = {tournament_, MatchId{new_uuid()}};
    plan.profile = "international-2025";
    (void)value_or_throw(twin_->feed().create_match(plan));
    const MatchId match = plan.key.match;
    std::atomic<std::size_t> begun{0};
    std::atomic<std::size_t> written{0};
    std::thread table{[&] {
        const DeviceId device{new_uuid()};
        for (std::size_t i = 0; i < entries; ++i) {
            const MatchHead head = value_or_throw(twin_->feed().match(plan.key)).head;
            const AppendItem item = entry_behind(head, match, device);
            ++begun;
            (void)value_or_throw(twin_->feed().append(tournament_, {&item, 1}));
            ++written;
        }
    }};
    std::vector<Hash> ends;
    std::size_t outwritten = 0;
    std::size_t held_up = 0;
    FactHead seen;
    for (std::size_t round = 0; written < entries; ++round) {
        const std::size_t before = written;
        const Hash end = value_or_throw(twin_->feed().match(plan.key)).head.hash;
        // Every other time the desk is slow: an entry comes first.
        while (round % 2 == 1 && written < before + 2 && written < entries)
            std::this_thread::yield();
        const bool overtaken = written >= before + 2;
        const std::size_t begun_before = begun;
        const std::vector<RecordEnd> rests_on{{match, end}};
        const auto added =
            value_or_throw(store().append(tournament_, seen, facts(seen, 1), rests_on));
        if (added.fate == FactAppend::Fate::outwritten) ++outwritten;
        if (added.fate != FactAppend::Fate::appended) continue;
        EXPECT_FALSE(overtaken) << "fact " << ends.size() + 1 << " rests on an end of before";
        if (begun > begun_before) ++held_up;
        ends.push_back(end);
        seen = added.head;
    }
    table.join();
    std::size_t facts_told = 0;
    std::size_t entries_told = 0;
    Hash last = start_hash(match);
    for (const FeedItem& item : whole_feed(twin_->feed(), tournament_)) {
        if (item.kind == FeedItem::Kind::entry) {
            last = item.hash;
            ++entries_told;
        }
        if (item.kind != FeedItem::Kind::tournament) continue;
        ASSERT_LT(facts_told, ends.size());
        EXPECT_EQ(last, ends[facts_told]) << "fact " << facts_told + 1;
        ++facts_told;
    }
    EXPECT_EQ(entries_told, entries);
    EXPECT_EQ(facts_told, ends.size());
    EXPECT_GT(outwritten, 0u) << "no entry came between a look and an act";
    EXPECT_GT(held_up, 0u) << "no entry came while a fact was being added";
}

constexpr const char* fill_record_and_audit = R"SQL(
insert into tournament_fact (tournament_id, number, fact_id, device_id, hash, bytes)
    select tournament_id, n, gen_random_uuid(), gen_random_uuid(), sha256('x'), 'x'
    from tournament, generate_series(1, 5000) n;
insert into audit (tournament_id, at, act, refused, row_id)
    select tournament_id, now(), 'act', false, gen_random_uuid()
    from tournament, generate_series(1, 5000) n;
analyze)SQL";

/// Both grow with every act of a desk. A connection keeps the plans that it made when they were
/// empty, so those are looked at, too.
TEST_F(FactStoreContract, NoStatementReadsTheWholeRecordOrTheWholeAudit) {
    auto& twin = static_cast<PgTwin&>(*twin_);
    const auto audit = audit::make_pg_audit_store(twin.connections(), tournament_);
    for (const bool filled : {false, true}) {
        SCOPED_TRACE(filled ? "filled and analysed" : "new tables");
        if (filled) twin.database().run(fill_record_and_audit);
        const auto opened = twin.connections().open();
        ASSERT_TRUE(opened.connection) << opened.status.text();
        std::size_t looked_at = 0;
        for (const postgres::Statement& statement : twin.connections().statements()) {
            if (!statement.name.starts_with("fact_") && !statement.name.starts_with("audit_"))
                continue;
            ++looked_at;
            const std::string plan = server::testing::plan_of(*opened.connection, statement);
            SCOPED_TRACE(statement.name + '\n' + plan);
            EXPECT_EQ(plan.find("Sort"), std::string::npos);
            if (statement.name == "fact_head")  // the last one, from the end of the index
                EXPECT_NE(plan.find("Limit\n"), std::string::npos);
            else
                EXPECT_EQ(server::testing::scans_in(plan, {"tournament_fact", "audit"}), "");
            EXPECT_EQ(plan.find("Seq Scan on tournament_fact"), std::string::npos);
        }
        EXPECT_EQ(looked_at, 8U);
    }
}

}  // namespace

}  // namespace courthand::server::tournament
