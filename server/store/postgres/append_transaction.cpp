#include "server/store/postgres/append_transaction.h"

#include <set>

#include "server/store/postgres/match_rows.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/store/postgres/text_form.h"

namespace courthand::server::postgres {
namespace {

AppendContext read_context(pqxx::work& work, TournamentId tournament,
                           std::span<const AppendItem> items) {
    std::set<MatchId> matches;
    ArrayText match_ids;
    ArrayText entry_ids;
    for (const AppendItem& item : items) {
        if (matches.insert(item.match).second) match_ids.add(to_text(item.match));
        entry_ids.add(to_text(item.id));
    }
    const std::string id = to_text(tournament);
    AppendContext context;
    context.head = lock_sequencer(work, tournament);
    for (const auto& row : work.exec_prepared("append_heads", id, match_ids.text()))
        context.heads[id_of<MatchId>(row[0])] = match_head(row, 1);
    for (const auto& row : work.exec_prepared("append_known", id, entry_ids.text()))
        context.known[id_of<EntryId>(row[0])] = {id_of<MatchId>(row[1]), hash_of_field(row[2]),
                                                 row[3].as<FeedPosition>(),
                                                 row[4].as<std::uint32_t>()};
    for (const auto& row : work.exec_prepared("append_branches", id, match_ids.text())) {
        const BranchKey key{id_of<MatchId>(row[0]), id_of<DeviceId>(row[1]), row[2].as<Epoch>()};
        context.branches[key] = row[3].as<std::uint32_t>();
        context.branch_hashes.insert(hash_of_field(row[4]));
    }
    return context;
}

/// The columns that entries and branches share, as arrays.
struct Columns {
    ArrayText match, number, epoch, id, device, hash, bytes, position, signature, branch, why;

    void add(const AppendItem& item, const AppendResult& result) {
        match.add(to_text(item.match));
        number.add_number(item.number);
        epoch.add_number(item.epoch);
        id.add(to_text(item.id));
        device.add(to_text(item.device));
        hash.add(bytea(item.hash));
        bytes.add(bytea(*item.bytes));
        position.add_number(result.position);
        if (item.signature.empty())
            signature.add_null();
        else
            signature.add(bytea(item.signature));
        branch.add_number(result.branch);
        why.add(result.message);
    }
};

void write_entries(pqxx::work& work, const std::string& tournament,
                   std::span<const AppendItem> items, const AppendPlan& plan) {
    if (plan.entries.empty()) return;
    Columns c;
    for (const std::size_t i : plan.entries) c.add(items[i], plan.results[i]);
    work.exec_prepared("append_entries", tournament, c.match.text(), c.number.text(),
                       c.epoch.text(), c.id.text(), c.device.text(), c.hash.text(), c.bytes.text(),
                       c.position.text(), c.signature.text());
}

void write_branches(pqxx::work& work, const std::string& tournament,
                    std::span<const AppendItem> items, const AppendPlan& plan) {
    if (plan.branches.empty()) return;
    Columns c;
    for (const std::size_t i : plan.branches) c.add(items[i], plan.results[i]);
    work.exec_prepared("append_to_branches", tournament, c.match.text(), c.number.text(),
                       c.epoch.text(), c.id.text(), c.device.text(), c.hash.text(), c.bytes.text(),
                       c.position.text(), c.signature.text(), c.branch.text(), c.why.text());
}

void write_heads(pqxx::work& work, const std::string& tournament, const AppendPlan& plan) {
    if (plan.heads.empty()) return;
    ArrayText match, epoch, grant, writer, self, last, hash;
    for (const auto& [id, head] : plan.heads) {
        match.add(to_text(id));
        epoch.add_number(head.epoch);
        grant.add(to_text(head.grant));
        writer.add(to_text(head.writer));
        self.add(head.self_granted ? "t" : "f");
        last.add_number(head.last);
        hash.add(bytea(head.hash));
    }
    work.exec_prepared("append_move_heads", tournament, match.text(), epoch.text(), grant.text(),
                       writer.text(), self.text(), last.text(), hash.text());
}

void write_feed(pqxx::work& work, const std::string& tournament, std::span<const AppendItem> items,
                const AppendPlan& plan) {
    ArrayText position, kind, match, id;
    const auto add = [&](const std::vector<std::size_t>& indices, FeedItem::Kind as) {
        for (const std::size_t i : indices) {
            position.add_number(plan.results[i].position);
            kind.add_number(static_cast<std::uint64_t>(as));
            match.add(to_text(items[i].match));
            id.add(to_text(items[i].id));
        }
    };
    add(plan.entries, FeedItem::Kind::entry);
    add(plan.branches, FeedItem::Kind::branch);
    work.exec_prepared("append_feed", tournament, position.text(), kind.text(), match.text(),
                       id.text());
    work.exec_prepared("feed_advance", tournament, plan.head);
}

}  // namespace

Database::Statements append_statements() {
    const std::string common =
        "unnest($2::uuid[], $3::int[], $4::int[], $5::uuid[], $6::uuid[], $7::bytea[], "
        "$8::bytea[], $9::bigint[], $10::bytea[]";
    return {
        {"append_heads", std::string{"select match_id, "} + head_columns +
                             " from match where tournament_id = $1 and match_id = any($2::uuid[]) "
                             "order by match_id for update"},
        {"append_known",
         "select entry_id, match_id, hash, position, 0 from entry "
         "where tournament_id = $1 and entry_id = any($2::uuid[]) union all "
         "select entry_id, match_id, hash, position, branch from branch "
         "where tournament_id = $1 and entry_id = any($2::uuid[])"},
        {"append_branches",
         "select match_id, device_id, epoch, branch, hash from branch "
         "where tournament_id = $1 and match_id = any($2::uuid[])"},
        {"append_entries",
         "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
         "bytes, position, signature) select $1, * from " +
             common + ")"},
        {"append_to_branches",
         "insert into branch (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
         "bytes, position, signature, branch, why) select $1, * from " +
             common + ", $11::int[], $12::text[])"},
        {"append_move_heads",
         "update match m set epoch = u.epoch, grant_id = u.grant_id, writer = u.writer, "
         "self_granted = u.self, last_number = u.last, head_hash = u.hash "
         "from unnest($2::uuid[], $3::int[], $4::uuid[], $5::uuid[], $6::bool[], $7::int[], "
         "$8::bytea[]) as u(match_id, epoch, grant_id, writer, self, last, hash) "
         "where m.tournament_id = $1 and m.match_id = u.match_id"},
        {"append_feed",
         "insert into feed (tournament_id, position, kind, match_id, item_id) "
         "select $1, * from unnest($2::bigint[], $3::smallint[], $4::uuid[], $5::uuid[])"},
    };
}

std::vector<AppendResult> append_in(pqxx::work& work, TournamentId tournament,
                                    std::span<const AppendItem> items) {
    AppendPlan plan = plan_append(read_context(work, tournament, items), items);
    if (plan.entries.empty() && plan.branches.empty()) return std::move(plan.results);
    const std::string id = to_text(tournament);
    write_entries(work, id, items, plan);
    write_branches(work, id, items, plan);
    write_heads(work, id, plan);
    for (const MatchId match : plan.first_grants) {
        const MatchHead& head = plan.heads[match];
        work.exec_prepared("grant_note", id, to_text(match), head.epoch, to_text(head.grant),
                           to_text(head.writer), "first", "sent the first entry", 1);
    }
    write_feed(work, id, items, plan);
    return std::move(plan.results);
}

}  // namespace courthand::server::postgres
