#include "server/venue/postgres/pg_alert_store.h"

#include <spdlog/spdlog.h>

#include "server/store/postgres/text_form.h"
#include "server/venue/alert_message.h"

namespace courthand::server::venue {

namespace {

using alerts::LifeEntry;
using postgres::Database;

Database::Statements statements() {
    return {
        {"alert_life_add",
         "insert into alert_life (tournament_id, alert_id, number, what, at, by, note, accepted, "
         "until, kind, body) values ($1, $2, $3, $4, to_timestamp($5::float8 / 1000000), $6, $7, "
         "$8, to_timestamp($9::float8 / 1000000), $10, $11::bytea) on conflict do nothing"},
        {"alert_life_all",
         "select alert_id, number, what, (extract(epoch from at) * 1000000)::bigint, by, note, "
         "accepted, (extract(epoch from until) * 1000000)::bigint, kind, body from alert_life "
         "where tournament_id = $1 order by alert_id, number"},
    };
}

std::optional<std::string> body_of(const LifeEntry& entry) {
    if (!entry.condition) return std::nullopt;
    alerts::Alert alert;
    alert.condition = *entry.condition;
    alert.since = entry.at;
    return postgres::bytea(to_message(alert).SerializeAsString());
}

void add(pqxx::work& work, const std::string& tournament, const LifeEntry& entry) {
    std::optional<std::int64_t> until;
    if (entry.what == LifeEntry::What::shelved) until = microseconds(entry.until);
    const std::string kind{entry.condition ? alerts::row_of(entry.condition->kind).word : ""};
    work.exec_prepared("alert_life_add", tournament, entry.id, entry.number,
                       static_cast<int>(entry.what), microseconds(entry.at), entry.by, entry.note,
                       entry.accepted, until, kind, body_of(entry));
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

class PgAlertStore final : public alerts::AlertStore {
  public:
    PgAlertStore(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Status append(std::span<const LifeEntry> entries) override {
        return database_.run("keep alerts", [&](pqxx::work& work) {
            for (const LifeEntry& entry : entries) add(work, tournament_, entry);
        });
    }

    Result<std::vector<LifeEntry>> load() override {
        return database_.perform("read alerts", [&](pqxx::work& work) {
            std::vector<LifeEntry> entries;
            std::string unknown;  // an alert that cannot be read: its later steps go with it
            for (const pqxx::row& row : work.exec_prepared("alert_life_all", tournament_)) {
                auto entry = entry_of(row);
                if (!entry) {
                    unknown = row[0].c_str();
                    spdlog::warn("alert {} was kept by a newer program and is not shown", unknown);
                } else if (entry->id != unknown) {
                    entries.push_back(*std::move(entry));
                }
            }
            return entries;
        });
    }

  private:
    Database& database_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<alerts::AlertStore> make_pg_alert_store(postgres::Database& database,
                                                        TournamentId tournament) {
    return std::make_unique<PgAlertStore>(database, tournament);
}

}  // namespace courthand::server::venue
