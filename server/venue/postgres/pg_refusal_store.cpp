#include "server/venue/postgres/pg_refusal_store.h"

#include <utility>

#include "server/store/postgres/text_form.h"

namespace courthand::server::venue {

namespace {

using postgres::Database;
using Refusal = Refusals::Refusal;

Database::Statements statements() {
    return {
        {"refused_add",
         "insert into refused_entry (tournament_id, match_id, device_id, court, number, cause, "
         "message, since, entry_id, entry_hash) select $1, $2, $3, $4, $5, $6, $7, "
         "to_timestamp($8::float8 / 1000000), $10, $11 "
         "where (select count(*) from refused_entry where tournament_id = $1) < $9 "
         "or exists (select from refused_entry where tournament_id = $1 and match_id = $2 "
         "and device_id = $3) "
         "on conflict (tournament_id, match_id, device_id) do update set court = excluded.court, "
         "number = excluded.number, cause = excluded.cause, message = excluded.message, "
         "entry_id = excluded.entry_id, entry_hash = excluded.entry_hash"},
        {"refused_make_room",
         "delete from refused_entry where tournament_id = $1 and device_id = $2 and match_id not "
         "in "
         "(select match_id from refused_entry where tournament_id = $1 and device_id = $2 "
         "order by since desc, match_id limit $3)"},
        {"refused_remove",
         "delete from refused_entry "
         "where tournament_id = $1 and match_id = $2 and device_id = $3"},
        {"refused_recorded",
         "delete from refused_entry r using entry e where r.tournament_id = $1 "
         "and e.tournament_id = $1 and e.entry_id = r.entry_id and e.hash = r.entry_hash"},
        // What was refused while its revocation was on the way.
        {"refused_of_withdrawn",
         "delete from refused_entry r using device d where r.tournament_id = $1 "
         "and d.tournament_id = $1 and d.device_id = r.device_id and d.revoked_at is not null"},
        {"refused_all",
         "select match_id, device_id, court, number, cause, message, "
         "(extract(epoch from since) * 1000000)::bigint, entry_id, entry_hash from refused_entry "
         "where tournament_id = $1 order by match_id, device_id"},
    };
}

Refusal refusal_of(const pqxx::row& row) {
    Refusal refusal;
    refusal.match = postgres::id_of<MatchId>(row[0]);
    refusal.device = postgres::id_of<DeviceId>(row[1]);
    refusal.court = row[2].as<std::uint32_t>();
    refusal.number = row[3].as<EntryNumber>();
    refusal.cause = static_cast<Cause>(row[4].as<int>());
    refusal.message = row[5].c_str();
    refusal.since = postgres::moment(row[6]);
    if (!row[7].is_null()) refusal.entry = postgres::id_of<EntryId>(row[7]);
    if (!row[8].is_null()) refusal.hash = postgres::hash_of_field(row[8]);
    return refusal;
}

void add(pqxx::work& work, const std::string& tournament, const Refusal& refusal) {
    const std::string device = to_text(refusal.device);
    std::optional<std::string> hash;
    if (!refusal.entry.nil()) hash = postgres::bytea(refusal.hash);
    work.exec_prepared(
        "refused_add", tournament, to_text(refusal.match), device, refusal.court, refusal.number,
        static_cast<int>(refusal.cause), refusal.message, postgres::microseconds(refusal.since),
        static_cast<std::int64_t>(Refusals::most), postgres::text_or_null(refusal.entry), hash);
    work.exec_prepared("refused_make_room", tournament, device,
                       static_cast<std::int64_t>(Refusals::most_of_a_device));
}

}  // namespace

PgRefusalStore::PgRefusalStore(Database& database, TournamentId tournament)
    : database_{database}, tournament_{to_text(tournament)} {
    database_.add_statements(statements());
}

Result<std::vector<Refusal>> PgRefusalStore::exchange(const Refusals::Changes& changes) {
    return database_.perform("share what was refused", [&](pqxx::work& work) {
        for (const auto& [place, change] : changes)
            if (change)
                add(work, tournament_, *change);
            else
                work.exec_prepared("refused_remove", tournament_, to_text(place.first),
                                   to_text(place.second));
        work.exec_prepared("refused_recorded", tournament_);
        work.exec_prepared("refused_of_withdrawn", tournament_);
        std::vector<Refusal> all;
        for (const pqxx::row& row : work.exec_prepared("refused_all", tournament_))
            all.push_back(refusal_of(row));
        return all;
    });
}

}  // namespace courthand::server::venue
