#include "server/venue/postgres/pg_alert_store.h"

#include <spdlog/spdlog.h>

#include <algorithm>
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
        {"alert_life_add",
         "insert into alert_life (tournament_id, alert_id, number, what, at, by, note, accepted, "
         "until, kind, body) values ($1, $2, $3, $4, to_timestamp($5::float8 / 1000000), $6, $7, "
         "$8, to_timestamp($9::float8 / 1000000), $10, $11::bytea) on conflict do nothing"},
        {"alert_life_same",
         "select 1 from alert_life where tournament_id = $1 and alert_id = $2 and number = $3 "
         "and what = $4 and at = to_timestamp($5::float8 / 1000000) and by = $6 and note = $7"},
        {"alert_head_move",
         "insert into alert_head (tournament_id, alert_id, number, live) values ($1, $2, $3, $4) "
         "on conflict (tournament_id, alert_id) do update set number = excluded.number, "
         "live = excluded.live where alert_head.number < excluded.number"},
        {"alert_life_live", "select life.* from alert_head w cross join lateral " + life +
                                " where w.tournament_id = $1 and w.live"},
        {"alert_life_of",
         "select life.* from unnest($2::text[]) as w(alert_id) cross join lateral " + life},
    };
}

std::optional<std::string> body_of(const LifeEntry& entry) {
    if (!entry.condition) return std::nullopt;
    alerts::Alert alert;
    alert.condition = *entry.condition;
    alert.since = entry.at;
    return postgres::bytea(to_message(alert).SerializeAsString());
}

Status taken(const alerts::AlertId& id) {
    return Status::failed(StatusCode::conflict, "another server was first with alert " + id,
                          "look at the alert again");
}

void add(pqxx::work& work, const std::string& tournament, const LifeEntry& entry) {
    std::optional<std::int64_t> until;
    if (entry.what == LifeEntry::What::shelved) until = microseconds(entry.until);
    const std::string kind{entry.condition ? alerts::row_of(entry.condition->kind).word : ""};
    const int what = static_cast<int>(entry.what);
    const std::int64_t at = microseconds(entry.at);
    const pqxx::result added =
        work.exec_prepared("alert_life_add", tournament, entry.id, entry.number, what, at, entry.by,
                           entry.note, entry.accepted, until, kind, body_of(entry));
    // A step that stands there already is the same one sent again, or another server's.
    if (added.affected_rows() == 0 &&
        work.exec_prepared("alert_life_same", tournament, entry.id, entry.number, what, at,
                           entry.by, entry.note)
            .empty())
        throw postgres::StoreFailure{taken(entry.id)};
    work.exec_prepared("alert_head_move", tournament, entry.id, entry.number, !entry.ends);
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
        // Two servers that keep the same alerts take their rows in one order.
        std::vector<const LifeEntry*> in_order;
        for (const LifeEntry& entry : entries) in_order.push_back(&entry);
        std::stable_sort(in_order.begin(), in_order.end(),
                         [](const auto* one, const auto* other) { return one->id < other->id; });
        return database_.run("keep alerts", [&](pqxx::work& work) {
            const FeedPosition head = notices.empty() ? 0 : postgres::lock_sequencer(work, id_);
            for (const LifeEntry* entry : in_order) add(work, tournament_, *entry);
            publish(work, id_, notices, head);
        });
    }

    Status append_act(const LifeEntry& entry, std::span<const FeedNotice> notices) override {
        return database_.run("keep an act", [&](pqxx::work& work) {
            const FeedPosition head = notices.empty() ? 0 : postgres::lock_sequencer(work, id_);
            add(work, tournament_, entry);
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
