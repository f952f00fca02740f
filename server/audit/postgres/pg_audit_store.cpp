#include "server/audit/postgres/pg_audit_store.h"

#include <limits>

#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"

namespace courthand::server::audit {

namespace {

using postgres::Database;
using postgres::microseconds;

Database::Statements statements() {
    return {
        {"audit_add",
         "insert into audit (tournament_id, at, device_id, seat, court, act, subject, detail, "
         "refused, row_id) values ($1, to_timestamp($2::float8 / 1000000), $3, $4, $5, $6, $7, $8, "
         "$9, $10) on conflict do nothing"},
        {"audit_list",
         "select number, (extract(epoch from at) * 1000000)::bigint, device_id, seat, court, act, "
         "subject, detail, refused from audit where tournament_id = $1 and number < $2 "
         "order by number desc limit $3"},
    };
}

AuditEntry entry_of(const pqxx::row& row) {
    AuditEntry entry;
    entry.number = row[0].as<std::uint64_t>();
    entry.at = postgres::moment(row[1]);
    if (!row[2].is_null()) {
        auth::Caller who;
        who.device = postgres::id_of<DeviceId>(row[2]);
        who.seat = auth::seat_of(row[3].c_str()).value_or(auth::Seat::table);
        who.court = row[4].as<auth::CourtNumber>();
        entry.who = who;
    }
    entry.act = row[5].c_str();
    entry.subject = row[6].c_str();
    entry.detail = row[7].c_str();
    entry.refused = row[8].as<bool>();
    return entry;
}

void add_row(pqxx::work& work, const std::string& tournament, const AuditEntry& entry) {
    std::optional<std::string> device;
    std::optional<std::string> seat;
    if (entry.who) {
        device = to_text(entry.who->device);
        seat = std::string{auth::word(entry.who->seat)};
    }
    const auth::CourtNumber court = entry.who ? entry.who->court : 0;
    work.exec_prepared("audit_add", tournament, microseconds(entry.at), device, seat, court,
                       entry.act, entry.subject, entry.detail, entry.refused,
                       postgres::text_or_null(entry.id));
}

/// The entry with what only the transaction of the act knows.
AuditEntry with_added(AuditEntry entry, const postgres::Trace::Added& added) {
    if (!added.words.empty())
        entry.detail = entry.detail.empty() ? added.words : added.words + ": " + entry.detail;
    if (const auto device = uuid_from_text(added.device)) {
        const auto seat = auth::seat_of(added.seat);
        entry.who = auth::Caller{DeviceId{*device}, seat.value_or(auth::Seat::table), added.court};
    }
    return entry;
}

class TracedRow final : public RowOfAct {
  public:
    TracedRow(const std::string& tournament, const AuditEntry& entry)
        : trace_{[tournament, entry](pqxx::work& work, const postgres::Trace::Added& added) {
              add_row(work, tournament, with_added(entry, added));
          }} {}
    bool kept() const override { return trace_.left(); }

  private:
    postgres::Trace trace_;
};

class PgAuditStore final : public AuditStore {
  public:
    PgAuditStore(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Status add(const AuditEntry& entry) override {
        return database_.run("keep the audit",
                             [&](pqxx::work& work) { add_row(work, tournament_, entry); });
    }

    std::unique_ptr<RowOfAct> with_act(const AuditEntry& entry) override {
        return std::make_unique<TracedRow>(tournament_, entry);
    }

    Result<std::vector<AuditEntry>> list(std::uint64_t before, std::size_t most) override {
        constexpr auto newest = std::numeric_limits<std::int64_t>::max();
        const auto below = before == 0 || before > static_cast<std::uint64_t>(newest)
                               ? newest
                               : static_cast<std::int64_t>(before);
        return database_.perform("read the audit", [&](pqxx::work& work) {
            std::vector<AuditEntry> entries;
            for (const pqxx::row& row : work.exec_prepared("audit_list", tournament_, below,
                                                           static_cast<std::int64_t>(most)))
                entries.push_back(entry_of(row));
            return entries;
        });
    }

  private:
    Database& database_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<AuditStore> make_pg_audit_store(postgres::Database& database,
                                                TournamentId tournament) {
    return std::make_unique<PgAuditStore>(database, tournament);
}

}  // namespace courthand::server::audit
