#include "server/venue/postgres/pg_heard_store.h"

#include <algorithm>
#include <utility>

#include "server/store/postgres/text_form.h"

namespace courthand::server::venue {

namespace {

using alerts::Now;
using postgres::ArrayText;
using postgres::Database;
using Heard = HeardDevices::Heard;
using std::chrono::microseconds;

Database::Statements statements() {
    return {
        // In the order of the devices, so that two servers do not wait for each other crosswise.
        {"heard_keep",
         "insert into device_seen as d (tournament_id, device_id, court, seen_at) "
         "select $1::uuid, u.device, u.court, now() - u.age * interval '1 microsecond' "
         "from unnest($2::uuid[], $3::int[], $4::bigint[]) as u(device, court, age) "
         "order by u.device on conflict (tournament_id, device_id) do update "
         "set court = excluded.court, seen_at = excluded.seen_at "
         "where d.seen_at < excluded.seen_at"},
        // The database's clock was set back: who is heard no more must grow old all the same.
        {"heard_settle",
         "update device_seen set seen_at = now() where tournament_id = $1 and seen_at > now()"},
        {"heard_forget",
         "delete from device_seen where tournament_id = $1 "
         "and seen_at < now() - $2::bigint * interval '1 hour'"},
        {"heard_all",
         "select device_id, court, (extract(epoch from now() - seen_at) * 1000000)::bigint "
         "from device_seen where tournament_id = $1 order by seen_at desc limit $2"},
    };
}

Heard heard_of(const pqxx::row& row, const Now& now) {
    const microseconds age{std::max<std::int64_t>(row[2].as<std::int64_t>(), 0)};
    return {postgres::id_of<DeviceId>(row[0]),
            row[1].as<std::uint32_t>(),
            {now.wall - age, now.steady - age}};
}

}  // namespace

PgHeardStore::PgHeardStore(Database& database, TournamentId tournament, Clock clock)
    : database_{database}, tournament_{to_text(tournament)}, clock_{std::move(clock)} {
    database_.add_statements(statements());
}

void PgHeardStore::keep(pqxx::work& work, const std::vector<Heard>& untold, const Now& now) const {
    if (untold.empty()) return;
    ArrayText devices, courts, ages;
    for (const Heard& heard : untold) {
        const auto age = std::chrono::duration_cast<microseconds>(now.steady - heard.at.steady);
        devices.add(to_text(heard.device));
        courts.add_number(heard.court);
        ages.add_number(static_cast<std::uint64_t>(std::max<std::int64_t>(age.count(), 0)));
    }
    work.exec("set local synchronous_commit = off");
    work.exec_prepared("heard_keep", tournament_, devices.text(), courts.text(), ages.text());
}

Result<std::vector<Heard>> PgHeardStore::exchange(const std::vector<Heard>& untold) {
    return database_.perform("share which devices were heard", [&](pqxx::work& work) {
        // The moment at which the transaction begins, for both sides: a slow statement makes
        // nobody look younger.
        const Now now = clock_();
        keep(work, untold, now);
        work.exec_prepared("heard_settle", tournament_);
        work.exec_prepared("heard_forget", tournament_, static_cast<std::int64_t>(forgets.count()));
        std::vector<Heard> all;
        for (const pqxx::row& row : work.exec_prepared(
                 "heard_all", tournament_, static_cast<std::int64_t>(HeardDevices::most)))
            all.push_back(heard_of(row, now));
        return all;
    });
}

}  // namespace courthand::server::venue
