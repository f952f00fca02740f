#include "server/venue/postgres/pg_alert_store.h"

#include <spdlog/spdlog.h>

#include <set>
#include <string_view>

#include "server/store/postgres/pg_match_store.h"
#include "server/store/postgres/store_failure.h"
#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"
#include "server/venue/alert_message.h"

namespace courthand::server::venue {

namespace {

using alerts::LifeEntry;
using postgres::Database;

Database::Statements statements() {
    // Alert by alert, each in the order of the key: whatever the planner knows, no index but that
    // of the key can give it. Asked for with `any`, all lives of the tournament were walked
    // through.
    const std::string life =
        "(select l.alert_id, l.number, l.what, (extract(epoch from l.at) * 1000000)::bigint, l.by, "
        "l.note, l.accepted, (extract(epoch from l.until) * 1000000)::bigint, l.kind, l.body "
        "from alert_life l where l.tournament_id = $1 and l.alert_id = w.alert_id "
        "order by l.number) life";
    return {
        // All steps in one round trip: a push of many entries may raise many alerts. Of an alert
        // with several steps the last says where its life has come to.
        {"alert_lives_add",
         "with step as materialized (select * from unnest($2::text[], $3::int[], $4::int[], "
         "$5::bigint[], $6::text[], $7::text[], $8::bool[], $9::bigint[], $10::text[], "
         "$11::bytea[], $12::bool[]) as s(alert_id, number, what, at, by, note, accepted, until, "
         "kind, body, live)), "
         "added as (insert into alert_life (tournament_id, alert_id, number, what, at, by, note, "
         "accepted, until, kind, body) select $1, alert_id, number, what, "
         "to_timestamp(at::float8 / 1000000), by, note, accepted, "
         "to_timestamp(until::float8 / 1000000), kind, body from step order by alert_id, number "
         "on conflict do nothing returning 1), "
         "moved as (insert into alert_head (tournament_id, alert_id, number, live) "
         "select distinct on (alert_id) $1, alert_id, number, live from step "
         "order by alert_id, number desc "
         "on conflict (tournament_id, alert_id) do update set number = excluded.number, "
         "live = excluded.live where alert_head.number < excluded.number) "
         "select count(*) from added"},
        {"alert_life_same",
         "select 1 from alert_life where tournament_id = $1 and alert_id = $2 and number = $3 "
         "and what = $4 and at = to_timestamp($5::float8 / 1000000) and by = $6 and note = $7"},
        {"alert_life_live", "select life.* from alert_head w cross join lateral " + life +
                                " where w.tournament_id = $1 and w.live"},
        {"alert_life_of",
         "select life.* from unnest($2::text[]) as w(alert_id) cross join lateral " + life},
    };
}

std::string body_of(const LifeEntry& entry) {
    alerts::Alert alert;
    alert.condition = *entry.condition;
    alert.since = entry.at;
    return postgres::bytea(to_message(alert).SerializeAsString());
}

Status taken(const alerts::AlertId& id) {
    return Status::failed(StatusCode::conflict, "another server was first with alert " + id,
                          "look at the alert again");
}

/// Steps as the columns of `alert_lives_add`.
struct Steps {
    postgres::ArrayText id, number, what, at, by, note, accepted, until, kind, body, live;

    explicit Steps(std::span<const LifeEntry> entries) {
        for (const LifeEntry& entry : entries) add(entry);
    }

  private:
    void add(const LifeEntry& entry) {
        id.add(entry.id);
        number.add_number(entry.number);
        what.add_number(static_cast<std::uint64_t>(entry.what));
        at.add(std::to_string(microseconds(entry.at)));
        by.add(entry.by);
        note.add(entry.note);
        accepted.add(entry.accepted ? "t" : "f");
        if (entry.what == LifeEntry::What::shelved)
            until.add(std::to_string(microseconds(entry.until)));
        else
            until.add_null();
        if (entry.condition) {
            kind.add(alerts::row_of(entry.condition->kind).word);
            body.add(body_of(entry));
        } else {
            kind.add("");
            body.add_null();
        }
        live.add(entry.ends ? "f" : "t");
    }
};

void add(pqxx::work& work, const std::string& tournament, std::span<const LifeEntry> entries) {
    const Steps s{entries};
    const pqxx::result added = work.exec_prepared(
        "alert_lives_add", tournament, s.id.text(), s.number.text(), s.what.text(), s.at.text(),
        s.by.text(), s.note.text(), s.accepted.text(), s.until.text(), s.kind.text(), s.body.text(),
        s.live.text());
    if (added[0][0].as<std::size_t>() == entries.size()) return;
    // A step that stands there already is the same one sent again, or another server's.
    for (const LifeEntry& entry : entries)
        if (work.exec_prepared("alert_life_same", tournament, entry.id, entry.number,
                               static_cast<int>(entry.what), microseconds(entry.at), entry.by,
                               entry.note)
                .empty())
            throw postgres::StoreFailure{taken(entry.id)};
}

void publish(pqxx::work& work, TournamentId tournament, std::span<const FeedNotice> notices,
             FeedPosition head) {
    for (const FeedNotice& notice : notices)
        if (work.exec_prepared("feed_find", to_text(tournament), to_text(notice.id)).empty())
            head = postgres::add_feed_item(work, tournament, head, notice);
}

// Nothing when the entry is of a newer program and cannot be understood here.
std::optional<LifeEntry> entry_of(const pqxx::row& row) {
    LifeEntry entry;
    entry.id = row[0].c_str();
    entry.number = row[1].as<std::uint32_t>();
    entry.what = static_cast<LifeEntry::What>(row[2].as<int>());
    entry.at = postgres::moment(row[3]);
    entry.by = row[4].c_str();
    entry.note = row[5].c_str();
    entry.accepted = row[6].as<bool>();
    if (!row[7].is_null()) entry.until = postgres::moment(row[7]);
    if (row[9].is_null()) return entry;
    v1::Alert message;
    if (!message.ParseFromString(postgres::bytes_of(row[9]))) return std::nullopt;
    entry.condition = condition_of(message, row[8].c_str());
    if (!entry.condition) return std::nullopt;
    return entry;
}

std::vector<LifeEntry> entries_of(const pqxx::result& rows) {
    std::vector<LifeEntry> entries;
    std::string unknown;  // an alert that cannot be read: its later steps go with it
    for (const pqxx::row& row : rows) {
        auto entry = entry_of(row);
        if (!entry) {
            unknown = row[0].c_str();
            spdlog::warn("alert {} was kept by a newer program and is not shown", unknown);
        } else if (entry->id != unknown) {
            entries.push_back(*std::move(entry));
        }
    }
    return entries;
}

class PgAlertStore final : public alerts::AlertStore {
  public:
    PgAlertStore(Database& database, TournamentId tournament)
        : database_{database}, id_{tournament}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Status append(std::span<const LifeEntry> entries,
                  std::span<const FeedNotice> notices) override {
        return database_.run("keep alerts", [&](pqxx::work& work) {
            const FeedPosition head = notices.empty() ? 0 : postgres::lock_sequencer(work, id_);
            add(work, tournament_, entries);
            publish(work, id_, notices, head);
        });
    }

    Status append_act(const LifeEntry& entry, std::span<const FeedNotice> notices) override {
        return database_.run("keep an act", [&](pqxx::work& work) {
            const FeedPosition head = notices.empty() ? 0 : postgres::lock_sequencer(work, id_);
            add(work, tournament_, {&entry, 1});
            publish(work, id_, notices, head);
            postgres::leave_trace(work);
        });
    }

    Result<std::vector<LifeEntry>> load_live() override {
        return database_.perform("read alerts", [&](pqxx::work& work) {
            return entries_of(work.exec_prepared("alert_life_live", tournament_));
        });
    }

    Result<std::vector<LifeEntry>> load(std::span<const alerts::AlertId> ids) override {
        postgres::ArrayText wanted;
        // Each once: its steps come as often as it is asked for.
        for (const auto& id : std::set<std::string_view>{ids.begin(), ids.end()})
            wanted.add(std::string{id});
        return database_.perform("read lives of alerts", [&](pqxx::work& work) {
            return entries_of(work.exec_prepared("alert_life_of", tournament_, wanted.text()));
        });
    }

  private:
    Database& database_;
    TournamentId id_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<alerts::AlertStore> make_pg_alert_store(postgres::Database& database,
                                                        TournamentId tournament) {
    return std::make_unique<PgAlertStore>(database, tournament);
}

}  // namespace courthand::server::venue
