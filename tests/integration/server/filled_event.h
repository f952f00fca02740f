// A database with a whole small event in it: the facts of the small cup, and the record that a
// table keeps of one of its matches.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "server/export/planned_match.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"
#include "server/testing/test_database.h"
#include "server/tournament/postgres/pg_fact_store.h"
#include "tests/unit/event_file/event_file_kit.h"

namespace courthand::server::testing {

inline const TournamentId tournament{Uuid{event_file::kit::tournament_id().bytes()}};
inline const DeviceId table_device{Uuid{wire::kit::id(99).bytes()}};

inline void keep_facts(postgres::Database& database, const std::string& script) {
    postgres::PgMatchStore feed{database};
    tournament::PgFactStore store{database, feed};
    std::vector<tournament::KeptFact> facts;
    for (const event_file::kit::KeptFact& made : event_file::kit::kept(script)) {
        const auto read = wire::read_event_entry(made.bytes);
        const auto& entry = std::get<wire::ReadEventEntry>(read);
        tournament::KeptFact fact;
        fact.id = tournament::FactId{Uuid{entry.header().entry_id.bytes()}};
        fact.number = entry.header().seq;
        fact.device = DeviceId{Uuid{entry.header().device_id.bytes()}};
        fact.hash = entry.hash();
        fact.bytes = entry.shared_bytes();
        if (made.beside)
            fact.beside = tournament::BesideWords{made.beside->salt, made.beside->text};
        facts.push_back(std::move(fact));
    }
    const auto kept = value_or_throw(store.append(tournament, {}, facts));
    ASSERT_EQ(kept.fate, tournament::FactAppend::Fate::appended);
}

inline void send(postgres::PgMatchStore& store, MatchKey match, GrantId grant,
                 const std::vector<std::string>& entries, Fate fate) {
    std::vector<AppendItem> items;
    for (const std::string& bytes : entries) {
        const auto read = wire::read_entry(bytes);
        const auto& entry = std::get<wire::ReadEntry>(read);
        AppendItem item;
        item.match = match.match;
        item.id = EntryId{Uuid{entry.header().entry_id.bytes()}};
        item.device = DeviceId{Uuid{entry.header().device_id.bytes()}};
        item.epoch = entry.header().epoch;
        item.grant = grant;
        item.number = entry.header().seq;
        item.previous = entry.header().prev_hash;
        item.hash = entry.hash();
        item.bytes = entry.shared_bytes();
        items.push_back(std::move(item));
    }
    for (const AppendResult& result : value_or_throw(store.append(tournament, items)))
        ASSERT_EQ(result.fate, fate) << result.message;
}

inline void keep_record(postgres::PgMatchStore& store) {
    v1::Match planned = event_file::kit::planned_match();
    wire::to_proto(find_profile("international-2021")->rules.format, *planned.mutable_format());
    const auto plan = value_or_throw(exports::plan_of(planned, tournament));
    (void)value_or_throw(store.create_match(plan));
    const auto head = value_or_throw(
        store.grant_writer({plan.key, table_device, GrantWish::How::granted, "test"}));
    send(store, plan.key, head.grant, wire::kit::five_entries(), Fate::appended);
}

/// What another tablet of the court sends later: it joins no more and lies on a branch.
inline void keep_branch(postgres::PgMatchStore& store) {
    const auto match = value_or_throw(store.matches(tournament)).front();
    send(store, match.plan.key, GrantId{}, wire::kit::two_beside(), Fate::branched);
}

/// A database with the small cup and the record of one of its matches.
inline void fill(const TestDatabase& database,
                 const std::string& script = event_file::kit::small_cup()) {
    postgres::Database connections{database.dsn()};
    (void)value_or_throw(postgres::migrate(connections));
    postgres::PgMatchStore store{connections};
    (void)value_or_throw(store.create_tournament(tournament, "Harbour Cup"));
    keep_facts(connections, script);
    keep_record(store);
}

}  // namespace courthand::server::testing
