#include "server/store/postgres/append_transaction.h"

#include <fmt/format.h>

#include <set>

#include "server/store/postgres/key_range.h"
#include "server/store/postgres/match_rows.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/store/postgres/store_failure.h"
#include "server/store/postgres/text_form.h"

namespace courthand::server::postgres {
namespace {

/// Of a chain beside a record, this many entries may join it at once; the next append moves on.
constexpr int most_promoted_at_once = 4096;

/// What names the matches and entries of one append in SQL.
struct Names {
    ArrayText matches, entries;

    explicit Names(std::span<const AppendItem> items) {
        std::set<MatchId> seen;
        for (const AppendItem& item : items) {
            seen.insert(item.match);
            entries.add(to_text(item.id));
        }
        // Ascending: the rows are locked in this order.
        for (const MatchId match : seen) matches.add(to_text(match));
    }
};

void read_beside(pqxx::work& work, const std::string& tournament, AppendContext& context,
                 std::span<const AppendItem> items) {
    ArrayText match, hash, devices;
    const auto look_for = [&](MatchId of, const Hash& wanted) {
        match.add(to_text(of));
        hash.add(bytea(wanted));
    };
    for (const auto& [id, at] : context.matches) {
        look_for(id, at.head.hash);
        devices.add(to_text(at.head.writer));
    }
    for (const AppendItem& item : items) {
        look_for(item.match, item.previous);
        look_for(item.match, item.hash);
        devices.add(to_text(item.device));
    }
    for (const auto& row : work.exec_prepared("append_beside", tournament, match.text(),
                                              hash.text(), devices.text(), most_promoted_at_once)) {
        BranchEntry entry;
        entry.id = id_of<EntryId>(row[0]);
        entry.match = id_of<MatchId>(row[1]);
        entry.device = id_of<DeviceId>(row[2]);
        entry.epoch = row[3].as<Epoch>();
        entry.number = row[4].as<EntryNumber>();
        if (!row[5].is_null()) entry.previous = hash_of_field(row[5]);
        entry.hash = hash_of_field(row[6]);
        entry.branch = row[7].as<std::uint32_t>();
        entry.position = row[8].as<FeedPosition>();
        context.beside[entry.hash] = entry;
    }
}

void read_branch_numbers(pqxx::work& work, const std::string& tournament, AppendContext& context,
                         std::span<const AppendItem> items) {
    std::set<BranchKey> keys;
    ArrayText match, device, epoch;
    for (const AppendItem& item : items) {
        if (!keys.insert({item.match, item.device, item.epoch}).second) continue;
        match.add(to_text(item.match));
        device.add(to_text(item.device));
        epoch.add_number(item.epoch);
    }
    for (const auto& row : work.exec_prepared("append_branches", tournament, match.text(),
                                              device.text(), epoch.text()))
        context.branches[{id_of<MatchId>(row[0]), id_of<DeviceId>(row[1]), row[2].as<Epoch>()}] =
            row[3].as<std::uint32_t>();
}

AppendContext read_context(pqxx::work& work, const std::string& tournament,
                           const Sequencer& sequencer, std::span<const AppendItem> items) {
    const Names names{items};
    AppendContext context;
    context.head = sequencer.head;
    bool any_beside = false;
    for (const auto& row : work.exec_prepared("append_heads", tournament, names.matches.text(),
                                              to_text(sequencer.generation))) {
        MatchContext& at = context.matches[id_of<MatchId>(row[0])];
        at.put_back = row[1].as<bool>();
        at.beside = {row[2].as<std::uint32_t>(), row[3].as<std::size_t>()};
        at.head = match_head(row, 4);
        any_beside = any_beside || at.beside.entries != 0;
    }
    for (const auto& row : work.exec_prepared("append_known", tournament, names.entries.text()))
        context.known[id_of<EntryId>(row[0])] = {id_of<MatchId>(row[1]), hash_of_field(row[2]),
                                                 row[3].as<FeedPosition>(),
                                                 row[4].as<std::uint32_t>()};
    if (!any_beside) return context;
    read_beside(work, tournament, context, items);
    read_branch_numbers(work, tournament, context, items);
    return context;
}

/// The columns that entries and branches share, as arrays.
struct Columns {
    ArrayText match, number, epoch, id, device, hash, bytes, position, signature;
    ArrayText branch, why, previous;

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
        previous.add(bytea(item.previous));
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
                       c.position.text(), c.signature.text(), c.branch.text(), c.why.text(),
                       c.previous.text());
}

void write_promotions(pqxx::work& work, const std::string& tournament, const AppendPlan& plan) {
    if (plan.promotions.empty()) return;
    ArrayText id, position;
    for (const Promotion& promotion : plan.promotions) {
        id.add(to_text(promotion.id));
        position.add_number(promotion.position);
    }
    work.exec_prepared("append_promote", tournament, id.text(), position.text());
    ArrayText match, at;
    for (const BranchesChanged& changed : plan.branches_changed) {
        match.add(to_text(changed.match));
        at.add_number(changed.position);
    }
    work.exec_prepared("append_tell_branches", tournament, match.text(), at.text());
}

void write_heads(pqxx::work& work, const std::string& tournament, const Uuid& generation,
                 const AppendPlan& plan) {
    if (plan.heads.empty()) return;
    ArrayText match, epoch, grant, writer, self, last, hash, recovered;
    for (const auto& [id, head] : plan.heads) {
        match.add(to_text(id));
        epoch.add_number(head.epoch);
        grant.add(to_text(head.grant));
        writer.add(to_text(head.writer));
        self.add(head.self_granted ? "t" : "f");
        recovered.add(head.recovered ? "t" : "f");
        last.add_number(head.last);
        hash.add(bytea(head.hash));
    }
    work.exec_prepared("append_move_heads", tournament, match.text(), epoch.text(), grant.text(),
                       writer.text(), self.text(), last.text(), hash.text(), to_text(generation),
                       recovered.text());
}

void write_counts(pqxx::work& work, const std::string& tournament, const AppendPlan& plan) {
    if (plan.beside.empty()) return;
    ArrayText match, branches, entries;
    for (const auto& [id, count] : plan.beside) {
        match.add(to_text(id));
        branches.add_number(count.branches);
        entries.add_number(count.entries);
    }
    work.exec_prepared("append_counts", tournament, match.text(), branches.text(), entries.text());
}

void write_claims(pqxx::work& work, const std::string& tournament, const AppendPlan& plan) {
    for (const EpochClaim& claim : plan.claims) {
        work.exec_prepared("grant_note", tournament, to_text(claim.match), claim.head.epoch,
                           to_text(claim.head.grant), to_text(claim.head.writer),
                           claim.how == EpochClaim::How::first ? "first" : "recovered",
                           claim.reason(), claim.from);
        work.exec_prepared(
            "claim_audit", tournament, microseconds(std::chrono::system_clock::now()),
            to_text(claim.head.writer), to_text(claim.match), claim.detail(), EpochClaim::act);
    }
}

/// How the matches are after the plan.
std::unordered_map<MatchId, MatchContext> after(std::unordered_map<MatchId, MatchContext> matches,
                                                const AppendPlan& plan) {
    for (const auto& [id, head] : plan.heads) {
        matches[id].head = head;
        matches[id].put_back = false;
    }
    for (const auto& [id, count] : plan.beside) matches[id].beside = count;
    return matches;
}

/// Entries that are asked for by their hash, and those that follow a hash, one behind the other.
/// The limits keep the planner from reading the table first and asking then.
std::string beside() {
    const auto found = [](const std::string& column, const std::string& of,
                          const std::string& also) {
        return "(select entry_id, match_id, device_id, epoch, number, previous, hash, branch, "
               "position from branch b where b.tournament_id = $1 and b.match_id = " +
               of + ".match_id and " + also + by_key("b." + column, of + ".hash") + " limit $5) n";
    };
    return "with recursive wanted as materialized "
           "(select * from unnest($2::uuid[], $3::bytea[]) as w(match_id, hash)), "
           "chain as (select n.* from wanted w cross join lateral " +
           found("previous", "w", "b.device_id = any($4::uuid[]) and ") +
           " union select n.* from chain c cross join lateral " +
           found("previous", "c",
                 // As no index can answer it: the one of writers would read all of a writer's rows.
                 "(b.device_id, b.epoch) is not distinct from (c.device_id, c.epoch) and ") +
           ") (select * from chain limit $5) union all "
           "select n.* from wanted w cross join lateral " +
           found("hash", "w", "");
}

/// Its place in the feed stays, as a word without content; the entry stands at a new one.
std::string promote() {
    return "with u as (select * from unnest($2::uuid[], $3::bigint[]) as u(entry_id, position)), "
           "moved as (delete from branch b using u cross join lateral (select ctid as at from "
           "branch where tournament_id = $1 and " +
           by_key("entry_id", "u.entry_id") +
           " limit 1) l where b.ctid = l.at returning b.*), "
           "traced as (insert into promotion (tournament_id, match_id, entry_id, branch, "
           "branch_position, position, branched_at) select tournament_id, match_id, entry_id, "
           "branch, m.position, u.position, stored_at from moved m join u using (entry_id)), "
           "placed as (insert into feed (tournament_id, position, kind, match_id) "
           "select tournament_id, position, 3, match_id from moved) "
           "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
           "bytes, position, signature) select tournament_id, match_id, number, epoch, entry_id, "
           "device_id, hash, bytes, u.position, signature from moved m join u using (entry_id)";
}

}  // namespace

Database::Statements append_statements() {
    // Rows are looked up by their whole keys, one by one, whatever the planner knows of a table: a
    // plan that was made when it was empty compares a list of keys with every row.
    const std::string common =
        "unnest($2::uuid[], $3::int[], $4::int[], $5::uuid[], $6::uuid[], $7::bytea[], "
        "$8::bytea[], $9::bigint[], $10::bytea[]";
    return {
        {"sequencer",
         "select feed_head, generation from tournament where tournament_id = $1 "
         "for no key update"},
        {"claim_audit",
         "insert into audit (tournament_id, at, device_id, seat, court, act, subject, detail, "
         "refused) select $1::uuid, to_timestamp($2::float8 / 1000000), $3::uuid, "
         "coalesce(d.seat, 'table'), coalesce(d.court, 0), $6::text, $4::text, $5::text, "
         "false from (select) one left join device d on d.tournament_id = $1::uuid "
         "and d.device_id = $3::uuid"},
        {"feed_advance", "update tournament set feed_head = $2 where tournament_id = $1"},
        {"append_heads",
         std::string{"select l.* from unnest($2::uuid[]) as u(id) cross join lateral "
                     "(select match_id, moved_in <> $3, branches, branch_entries, "} +
             head_columns +
             " from match where tournament_id = $1 and match_id = u.id limit 1 "
             "for no key update) as l"},
        {"append_known",
         std::string{"select k.* from unnest($2::uuid[]) as u(id) cross join lateral "
                     "(select entry_id, match_id, hash, position, 0 from entry "
                     "where tournament_id = $1 and entry_id = u.id limit 1) k union all "
                     "select k.* from unnest($2::uuid[]) as u(id) cross join lateral "
                     "(select entry_id, match_id, hash, position, branch from branch "
                     "where tournament_id = $1 and "} +
             by_key("entry_id", "u.id") + " limit 1) k"},
        {"append_beside", beside()},
        {"append_branches",
         std::string{
             "select u.match_id, u.device_id, u.epoch, b.branch "
             "from unnest($2::uuid[], $3::uuid[], $4::int[]) as u(match_id, device_id, epoch) "
             "cross join lateral (select max(own.branch) as branch from "
             "(select branch from branch where tournament_id = $1 "
             "and match_id = u.match_id and device_id = u.device_id and "} +
             by_key("epoch", "u.epoch") + ") own) b where b.branch is not null"},
        {"append_entries",
         "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
         "bytes, position, signature) select $1, * from " +
             common + ")"},
        {"append_to_branches",
         "insert into branch (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
         "bytes, position, signature, branch, why, previous) select $1, * from " +
             common + ", $11::int[], $12::text[], $13::bytea[])"},
        {"append_promote", promote()},
        {"append_tell_branches",
         "insert into feed (tournament_id, position, kind, match_id) "
         "select $1, u.position, 3, u.match_id "
         "from unnest($2::uuid[], $3::bigint[]) as u(match_id, position)"},
        {"append_move_heads",
         "update match m set epoch = u.epoch, grant_id = u.grant_id, writer = u.writer, "
         "self_granted = u.self, last_number = u.last, head_hash = u.hash, moved_in = $9, "
         "recovered = u.recovered "
         "from unnest($2::uuid[], $3::int[], $4::uuid[], $5::uuid[], $6::bool[], $7::int[], "
         "$8::bytea[], $10::bool[]) "
         "as u(match_id, epoch, grant_id, writer, self, last, hash, recovered) "
         "cross join lateral (select ctid as at from match where tournament_id = $1 "
         "and match_id = u.match_id limit 1) as l where m.ctid = l.at"},
        {"append_counts",
         "update match m set branches = u.branches, branch_entries = u.entries "
         "from unnest($2::uuid[], $3::int[], $4::int[]) as u(match_id, branches, entries) "
         "cross join lateral (select ctid as at from match where tournament_id = $1 "
         "and match_id = u.match_id limit 1) as l where m.ctid = l.at"},
    };
}

Sequencer hold_sequencer(pqxx::work& work, TournamentId tournament) {
    const pqxx::result row = work.exec_prepared("sequencer", to_text(tournament));
    if (row.empty())
        throw StoreFailure{Status::failed(StatusCode::not_found, "there is no such tournament")};
    return {row[0][0].as<FeedPosition>(), uuid_of(row[0][1])};
}

AppendOutcome append_in(pqxx::work& work, TournamentId tournament,
                        std::span<const AppendItem> items) {
    const std::string id = to_text(tournament);
    const Sequencer sequencer = hold_sequencer(work, tournament);
    AppendContext context = read_context(work, id, sequencer, items);
    auto matches = context.matches;
    AppendPlan plan = plan_append(std::move(context), items);
    if (!plan.nothing_to_write()) {
        write_entries(work, id, items, plan);
        write_branches(work, id, items, plan);
        write_promotions(work, id, plan);
        write_heads(work, id, sequencer.generation, plan);
        write_counts(work, id, plan);
        write_claims(work, id, plan);
        work.exec_prepared("feed_advance", id, plan.head);
    }
    matches = after(std::move(matches), plan);
    return {std::move(plan.results), sequencer.generation, std::move(matches)};
}

}  // namespace courthand::server::postgres
