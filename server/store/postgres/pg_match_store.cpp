#include "server/store/postgres/pg_match_store.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "server/domain/record_start.h"
#include "server/store/append_plan.h"
#include "server/store/postgres/append_transaction.h"
#include "server/store/postgres/feed_listener.h"
#include "server/store/postgres/feed_notifier.h"
#include "server/store/postgres/match_rows.h"
#include "server/store/postgres/store_failure.h"
#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"

namespace courthand::server::postgres {
namespace {

constexpr const char* change_match =
    "update match set number = $3, court = $4, first_team = $5, first_name = $6, "
    "first_club = $7, first_colour = $8, second_team = $9, second_name = $10, "
    "second_club = $11, second_colour = $12, format = $13::smallint[], profile = $14, "
    "profile_hash = $15::bytea, status = $16, "
    "scheduled_at = to_timestamp($17::float8 / 1000000), opened_at_table = $18, "
    "name = $19 "
    "where tournament_id = $1 and match_id = $2";

/// A page of the feed is merged from three tables, each read in the order of its positions and no
/// further than the page is long. `matches`: only of the matches in $5.
std::string feed_page(bool of_matches) {
    const std::string range = " where tournament_id = $1 and position > $2 and position <= $3";
    const std::string by_position = " order by position limit $4)";
    const std::string open = of_matches ? "(select page.* from unnest($5::uuid[]) as m(id) "
                                          "cross join lateral ("
                                        : "(";
    // Of one match, the entries are in the order of their numbers as well as of their positions.
    const std::string match = of_matches ? " and match_id = m.id" : "";
    const std::string close = of_matches ? by_position + " page)" : by_position;
    const std::string close_entries = of_matches ? " order by number limit $4) page)" : by_position;
    const std::string at = "(extract(epoch from stored_at) * 1000000)::bigint as at";
    return "select * from (" + open +
           "select position, 1 as kind, match_id, entry_id, number, epoch, device_id, hash, "
           "0 as branch, " +
           at + ", bytes, signature from entry" + range + match + close_entries + " union all " +
           open +
           "select position, 2, match_id, entry_id, number, epoch, device_id, hash, branch, " + at +
           ", bytes, signature from branch" + range + match + close + " union all " + open +
           "select position, kind, match_id, item_id, 0, 0, null::uuid, null::bytea, 0, "
           "(extract(epoch from at) * 1000000)::bigint, bytes, null::bytea from feed" +
           range + match + close + ") page order by position limit $4";
}

Database::Statements match_statements() {
    const std::string select_match =
        std::string{"select "} + match_columns + " from match where tournament_id = $1";
    return {
        {"tournaments",
         "select tournament_id, name, generation from tournament "
         "order by created_at, tournament_id"},
        {"tournament_make",
         "insert into tournament (tournament_id, name, generation, place) "
         "values ($1, $2, $3, database_place())"},
        {"feed_head", "select feed_head, generation from tournament where tournament_id = $1"},
        {"feed_add",
         "insert into feed (tournament_id, position, kind, match_id, item_id, bytes) "
         "values ($1, $2, $3, $4, $5, $6::bytea)"},
        {"feed_find",
         "select position from feed where tournament_id = $1 and item_id = $2 and kind in (4, 5)"},
        {"feed_page", feed_page(false)},
        {"feed_page_of", feed_page(true)},
        {"matches", select_match + " order by match_id"},
        {"match", select_match + " and match_id = $2"},
        {"match_lock", std::string{"select "} + head_columns +
                           " from match where tournament_id = $1 and match_id = $2 for update"},
        {"match_number", "select coalesce(max(number), 0) + 1 from match where tournament_id = $1"},
        {"match_make",
         "insert into match (tournament_id, match_id, number, court, first_team, first_name, "
         "first_club, first_colour, second_team, second_name, second_club, second_colour, format, "
         "profile, profile_hash, status, scheduled_at, opened_at_table, name, head_hash, moved_in) "
         "select $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13::smallint[], $14, "
         "$15::bytea, $16, to_timestamp($17::float8 / 1000000), $18, $19, $20::bytea, generation "
         "from tournament where tournament_id = $1"},
        {"match_change", change_match},
        {"match_change_unbegun",
         std::string{change_match} + " and last_number = 0 and branch_entries = 0"},
        {"grant_head",
         "update match m set epoch = $3, grant_id = $4, writer = $5, self_granted = false, "
         "recovered = false, asked_by = null, asked_at = null, moved_in = t.generation from "
         "tournament t where m.tournament_id = $1 and m.match_id = $2 and t.tournament_id = $1"},
        {"generation_renew",
         "update tournament set generation = gen_random_uuid() where tournament_id = $1"},
        {"take_over_ask",
         "update match set asked_by = $3, asked_at = now() where tournament_id = $1 "
         "and match_id = $2 and asked_by is distinct from $3 "
         "and (asked_by is null or asked_at > now() "
         "or asked_at <= now() - $4::bigint * interval '1 second')"},
        {"take_over_asked",
         "select asked_by from match where tournament_id = $1 and match_id = $2 for update"},
        {"take_over_end",
         "update match set asked_by = null, asked_at = null where tournament_id = $1 "
         "and match_id = $2"},
        {"record",
         "select bytes, signature, hash, device_id, "
         "(extract(epoch from stored_at) * 1000000)::bigint, number from entry "
         "where tournament_id = $1 and match_id = $2 and number > $3 order by number limit $4"},
        {"snapshots",
         "select match_id, last_number, hash, form, bytes from match_snapshot "
         "where tournament_id = $1"},
        {"snapshot_keep",
         "insert into match_snapshot (tournament_id, match_id, last_number, hash, form, bytes) "
         "values ($1, $2, $3, $4::bytea, $5, $6::bytea) on conflict (tournament_id, match_id) do "
         "update set last_number = excluded.last_number, hash = excluded.hash, "
         "form = excluded.form, bytes = excluded.bytes, made_at = now()"},
        {"grant_note",
         "insert into writer_epoch (tournament_id, match_id, epoch, grant_id, device_id, how, "
         "reason, from_number) values ($1, $2, $3, $4, $5, $6, $7, $8)"},
    };
}

Status no_match(MatchId match) {
    return Status::failed(StatusCode::not_found,
                          fmt::format("match {} is not known here", to_text(match)));
}

Status nobody_asks() {
    return Status::failed(StatusCode::conflict, "this device does not ask for the match any more",
                          "look at the list of alerts again");
}

/// Moves the head to a new epoch, ends a wish to take over, and notes the grant.
void keep_grant(pqxx::work& work, MatchKey key, const MatchHead& head, const char* how,
                const std::string& reason) {
    const std::string tournament = to_text(key.tournament);
    const std::string match = to_text(key.match);
    work.exec_prepared("grant_head", tournament, match, head.epoch, to_text(head.grant),
                       to_text(head.writer));
    work.exec_prepared("grant_note", tournament, match, head.epoch, to_text(head.grant),
                       to_text(head.writer), how, reason, head.last + 1);
}

/// Fills the places $1 to $19 of `match_make` and `match_change`.
template <class... More>
pqxx::result exec_plan(pqxx::work& work, const char* statement, const MatchPlan& plan,
                       const More&... more) {
    return work.exec_prepared(
        statement, to_text(plan.key.tournament), to_text(plan.key.match), plan.number, plan.court,
        text_or_null(plan.first.id), plan.first.name, plan.first.club, plan.first.colour,
        text_or_null(plan.second.id), plan.second.name, plan.second.club, plan.second.colour,
        format_text(plan.format), plan.profile, profile_hash_text(plan.profile_hash),
        static_cast<int>(plan.status), microseconds(plan.scheduled_at), plan.opened_at_table,
        plan.name, more...);
}

void describe(pqxx::work& work, MatchKey key, FeedPosition head) {
    FeedNotice notice;
    notice.kind = FeedItem::Kind::described;
    notice.match = key.match;
    add_feed_item(work, key.tournament, head, notice);
}

FeedItem feed_item(const pqxx::row& row) {
    FeedItem item;
    item.position = row[0].as<FeedPosition>();
    item.kind = static_cast<FeedItem::Kind>(row[1].as<int>());
    item.match = id_of<MatchId>(row[2]);
    item.id = id_of<EntryId>(row[3]);
    item.number = row[4].as<EntryNumber>();
    item.epoch = row[5].as<Epoch>();
    item.device = id_of<DeviceId>(row[6]);
    if (!row[7].is_null()) item.hash = hash_of_field(row[7]);
    item.branch = row[8].as<std::uint32_t>();
    item.stored_at = moment(row[9]);
    if (!row[10].is_null()) item.bytes = std::make_shared<const std::string>(bytes_of(row[10]));
    if (!row[11].is_null()) item.signature = bytes_of(row[11]);
    return item;
}

std::vector<StoredMatch> matches_in(pqxx::work& work, TournamentId tournament) {
    std::vector<StoredMatch> all;
    for (const auto& row : work.exec_prepared("matches", to_text(tournament)))
        all.push_back(stored_match(tournament, row));
    return all;
}

std::vector<MatchSnapshot> snapshots_in(pqxx::work& work, TournamentId tournament) {
    std::vector<MatchSnapshot> all;
    for (const auto& row : work.exec_prepared("snapshots", to_text(tournament)))
        all.push_back({id_of<MatchId>(row[0]), row[1].as<EntryNumber>(), hash_of_field(row[2]),
                       row[3].c_str(), bytes_of(row[4])});
    return all;
}

std::int64_t as_bigint(FeedPosition position) {
    constexpr auto largest = std::numeric_limits<std::int64_t>::max();
    return position > static_cast<FeedPosition>(largest) ? largest
                                                         : static_cast<std::int64_t>(position);
}

}  // namespace

FeedPosition lock_sequencer(pqxx::work& work, TournamentId tournament) {
    return hold_sequencer(work, tournament).head;
}

FeedPosition add_feed_item(pqxx::work& work, TournamentId tournament, FeedPosition head,
                           const FeedNotice& notice) {
    std::optional<std::string> bytes;
    if (!notice.bytes.empty()) bytes = bytea(notice.bytes);
    const std::string id = to_text(tournament);
    work.exec_prepared("feed_add", id, head + 1, static_cast<int>(notice.kind),
                       text_or_null(notice.match), text_or_null(notice.id), bytes);
    work.exec_prepared("feed_advance", id, head + 1);
    return head + 1;
}

PgMatchStore::PgMatchStore(Database& database)
    : database_{database}, feed_notifier_{std::make_unique<FeedNotifier>(database)} {
    database_.add_statements(match_statements());
    database_.add_statements(append_statements());
    database_.add_statements(quick_append_statements());
}

PgMatchStore::~PgMatchStore() = default;

void PgMatchStore::set_listener(Listener listener) {
    feed_listener_.reset();
    {
        const std::scoped_lock lock{listener_mutex_};
        listener_ = std::move(listener);
        if (!listener_) return;
    }
    feed_listener_ =
        std::make_unique<FeedListener>(database_, [this](TournamentId id) { hear(id); });
}

void PgMatchStore::set_own_listener(Listener listener) {
    const std::scoped_lock lock{listener_mutex_};
    listener_ = std::move(listener);
}

void PgMatchStore::hear(TournamentId tournament) {
    const std::scoped_lock lock{listener_mutex_};
    if (listener_) listener_(tournament);
}

void PgMatchStore::tell(TournamentId tournament) {
    hear(tournament);
    feed_notifier_->announce(tournament);
}

Result<std::vector<Tournament>> PgMatchStore::tournaments() {
    return database_.perform("read tournaments", [](pqxx::work& work) {
        std::vector<Tournament> all;
        for (const auto& row : work.exec_prepared("tournaments"))
            all.push_back({id_of<TournamentId>(row[0]), row[1].c_str(), uuid_of(row[2])});
        return all;
    });
}

Result<Tournament> PgMatchStore::create_tournament(TournamentId id, const std::string& name) {
    const Tournament made{id, name, new_uuid()};
    return database_.perform("make a tournament", [&](pqxx::work& work) {
        work.exec_prepared("tournament_make", to_text(made.id), made.name,
                           to_text(made.generation));
        return made;
    });
}

Result<MatchPlan> PgMatchStore::create_match(const MatchPlan& plan) {
    auto made = database_.perform("make a match", [&](pqxx::work& work) {
        MatchPlan kept = plan;
        const FeedPosition head = lock_sequencer(work, plan.key.tournament);
        if (kept.number == 0 && !kept.opened_at_table)
            kept.number = work.exec_prepared("match_number", to_text(plan.key.tournament))[0][0]
                              .as<std::uint32_t>();
        exec_plan(work, "match_make", kept, bytea(start_hash(plan.key.match)));
        describe(work, plan.key, head);
        leave_trace(work);
        return kept;
    });
    if (made.ok()) tell(plan.key.tournament);
    return made;
}

Result<MatchPlan> PgMatchStore::change_match(const MatchPlan& plan) {
    return change(plan, "match_change");
}

Result<MatchPlan> PgMatchStore::change_unbegun(const MatchPlan& plan) {
    return change(plan, "match_change_unbegun");
}

Result<MatchPlan> PgMatchStore::change(const MatchPlan& plan, const char* statement) {
    auto changed = database_.perform("change a match", [&](pqxx::work& work) {
        const FeedPosition head = lock_sequencer(work, plan.key.tournament);
        if (exec_plan(work, statement, plan).affected_rows() == 0) {
            const bool there =
                !work.exec_prepared("match", to_text(plan.key.tournament), to_text(plan.key.match))
                     .empty();
            throw StoreFailure{there ? has_begun() : no_match(plan.key.match)};
        }
        describe(work, plan.key, head);
        leave_trace(work);
        return plan;
    });
    if (changed.ok()) tell(plan.key.tournament);
    return changed;
}

Result<std::vector<StoredMatch>> PgMatchStore::matches(TournamentId tournament) {
    return database_.perform("read matches",
                             [&](pqxx::work& work) { return matches_in(work, tournament); });
}

Result<StoredMatch> PgMatchStore::match(MatchKey key) {
    return database_.perform("read a match", [&](pqxx::work& work) {
        const pqxx::result rows =
            work.exec_prepared("match", to_text(key.tournament), to_text(key.match));
        if (rows.empty()) throw StoreFailure{no_match(key.match)};
        return stored_match(key.tournament, rows[0]);
    });
}

Result<MatchHead> PgMatchStore::grant_writer(const GrantWish& wish) {
    const std::string tournament = to_text(wish.key.tournament);
    const std::string match = to_text(wish.key.match);
    auto granted = database_.perform("grant a match", [&](pqxx::work& work) {
        const FeedPosition position = lock_sequencer(work, wish.key.tournament);
        const pqxx::result rows = work.exec_prepared("match_lock", tournament, match);
        if (rows.empty()) throw StoreFailure{no_match(wish.key.match)};
        const MatchHead head = match_head(rows[0], 0);
        const Result<MatchHead> next = next_writer(head, wish);
        if (!next.ok()) throw StoreFailure{next.status()};
        if (*next == head) return head;
        const char* how = wish.how == GrantWish::How::granted ? "granted" : "taken-over";
        keep_grant(work, wish.key, *next, how, wish.reason);
        describe(work, wish.key, position);
        leave_trace(work, {fmt::format("epoch {}", next->epoch)});
        return *next;
    });
    if (granted.ok()) tell(wish.key.tournament);
    return granted;
}

Status PgMatchStore::renew_generation(TournamentId tournament) {
    return database_.run("renew the generation", [&](pqxx::work& work) {
        work.exec_prepared("generation_renew", to_text(tournament));
    });
}

Result<StoredMatch> PgMatchStore::ask_take_over(MatchKey key, DeviceId device) {
    const std::string tournament = to_text(key.tournament);
    const std::string match = to_text(key.match);
    auto asked = database_.perform("ask to take a match over", [&](pqxx::work& work) {
        const FeedPosition head = lock_sequencer(work, key.tournament);
        const auto changed = work.exec_prepared("take_over_ask", tournament, match, to_text(device),
                                                take_over_stands.count());
        if (changed.affected_rows() > 0) {
            describe(work, key, head);
            leave_trace(work);
        }
        const pqxx::result rows = work.exec_prepared("match", tournament, match);
        if (rows.empty()) throw StoreFailure{no_match(key.match)};
        return stored_match(key.tournament, rows[0]);
    });
    if (asked.ok()) tell(key.tournament);
    return asked;
}

Result<MatchHead> PgMatchStore::answer_take_over(MatchKey key, DeviceId device, bool consent,
                                                 const std::string& reason) {
    const std::string tournament = to_text(key.tournament);
    const std::string match = to_text(key.match);
    auto answered = database_.perform("answer a take-over", [&](pqxx::work& work) {
        const FeedPosition position = lock_sequencer(work, key.tournament);
        const pqxx::result rows = work.exec_prepared("match_lock", tournament, match);
        if (rows.empty()) throw StoreFailure{no_match(key.match)};
        const pqxx::result asked = work.exec_prepared("take_over_asked", tournament, match);
        if (id_of<DeviceId>(asked[0][0]) != device) throw StoreFailure{nobody_asks()};
        MatchHead head = match_head(rows[0], 0);
        if (consent) {
            const auto next = next_writer(head, {key, device, GrantWish::How::taken_over, reason});
            if (!next.ok()) throw StoreFailure{next.status()};
            const MatchHead& granted = *next;
            // It may write already: what it sent after a restore was taken as its lost grant.
            if (granted == head)
                work.exec_prepared("take_over_end", tournament, match);
            else
                keep_grant(work, key, granted, "taken-over", reason);
            head = granted;
        } else {
            work.exec_prepared("take_over_end", tournament, match);
        }
        describe(work, key, position);
        leave_trace(work);
        return head;
    });
    if (answered.ok()) tell(key.tournament);
    return answered;
}

Result<std::vector<StoredEntry>> PgMatchStore::read_record(MatchKey key, EntryNumber after,
                                                           std::size_t most) {
    return database_.perform("read a record", [&](pqxx::work& work) {
        std::vector<StoredEntry> entries;
        for (const auto& row :
             work.exec_prepared("record", to_text(key.tournament), to_text(key.match), after,
                                static_cast<std::int64_t>(most))) {
            if (row[5].as<EntryNumber>() != after + entries.size() + 1) break;
            entries.push_back({std::make_shared<const std::string>(bytes_of(row[0])),
                               row[1].is_null() ? std::string{} : bytes_of(row[1]),
                               hash_of_field(row[2]), id_of<DeviceId>(row[3]), moment(row[4])});
        }
        return entries;
    });
}

Result<TournamentView> PgMatchStore::view(TournamentId tournament) {
    return database_.perform("read a tournament", [&](pqxx::work& work) {
        // One snapshot of the database for all that follows.
        work.exec("set transaction isolation level repeatable read, read only");
        TournamentView view;
        const pqxx::result head = work.exec_prepared("feed_head", to_text(tournament));
        if (head.empty())
            throw StoreFailure{
                Status::failed(StatusCode::not_found, "there is no such tournament")};
        view.head = head[0][0].as<FeedPosition>();
        view.generation = uuid_of(head[0][1]);
        view.matches = matches_in(work, tournament);
        view.snapshots = snapshots_in(work, tournament);
        return view;
    });
}

Result<std::vector<MatchSnapshot>> PgMatchStore::snapshots(TournamentId tournament) {
    return database_.perform("read snapshots",
                             [&](pqxx::work& work) { return snapshots_in(work, tournament); });
}

Status PgMatchStore::keep_snapshot(TournamentId tournament, const MatchSnapshot& snapshot) {
    return database_.run("keep a snapshot", [&](pqxx::work& work) {
        // What is lost of it is folded again: no reason to wait for a disk or a standby.
        work.exec("set local synchronous_commit = off");
        work.exec_prepared("snapshot_keep", to_text(tournament), to_text(snapshot.match),
                           snapshot.last, bytea(snapshot.hash), snapshot.form,
                           bytea(snapshot.bytes));
    });
}

Result<FeedPage> PgMatchStore::read_feed(const FeedQuery& query) {
    return database_.perform("read the feed", [&](pqxx::work& work) {
        const std::string id = to_text(query.tournament);
        FeedPage page;
        // The head first: what is read after it holds at least everything up to it.
        const pqxx::result head = work.exec_prepared("feed_head", id);
        if (head.empty())
            throw StoreFailure{
                Status::failed(StatusCode::not_found, "there is no such tournament")};
        page.head = head[0][0].as<FeedPosition>();
        page.generation = uuid_of(head[0][1]);
        const std::int64_t after = as_bigint(query.after);
        const std::int64_t up_to = as_bigint(query.up_to);
        const auto most = static_cast<std::int64_t>(std::min(query.most, most_items_per_page));
        ArrayText matches;
        for (const MatchId match : query.matches) matches.add(to_text(match));
        const pqxx::result rows =
            query.matches.empty()
                ? work.exec_prepared("feed_page", id, after, up_to, most)
                : work.exec_prepared("feed_page_of", id, after, up_to, most, matches.text());
        for (const auto& row : rows) page.items.push_back(feed_item(row));
        if (!page.items.empty()) page.head = std::max(page.head, page.items.back().position);
        return page;
    });
}

Result<FeedPosition> PgMatchStore::publish(TournamentId tournament, const FeedNotice& notice) {
    auto position = database_.perform("publish", [&](pqxx::work& work) {
        const FeedPosition head = lock_sequencer(work, tournament);
        const pqxx::result known =
            work.exec_prepared("feed_find", to_text(tournament), to_text(notice.id));
        if (!known.empty()) return known[0][0].as<FeedPosition>();
        return add_feed_item(work, tournament, head, notice);
    });
    if (position.ok()) tell(tournament);
    return position;
}

}  // namespace courthand::server::postgres
