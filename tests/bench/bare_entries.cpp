#include "tests/bench/bare_entries.h"

#include "server/store/postgres/text_form.h"

namespace courthand::bench {

using namespace server;

BareEntries::BareEntries(const std::string& dsn, const std::string& table)
    : tournament_{to_text(new_uuid())}, connection_{dsn} {
    pqxx::nontransaction work{connection_};
    work.exec("create table " + table + " (like entry including all)");
    connection_.prepare("bare",
                        "insert into " + table +
                            " (tournament_id, match_id, number, epoch, "
                            "entry_id, device_id, hash, bytes, position) select $1, * from "
                            "unnest($2::uuid[], $3::int[], $4::int[], $5::uuid[], $6::uuid[], "
                            "$7::bytea[], $8::bytea[], $9::bigint[])");
}

void BareEntries::insert(const std::vector<AppendItem>& items) {
    postgres::ArrayText match, number, epoch, id, device, hash, bytes, position;
    for (const AppendItem& item : items) {
        match.add(to_text(item.match));
        number.add_number(item.number);
        epoch.add_number(item.epoch);
        id.add(to_text(item.id));
        device.add(to_text(item.device));
        hash.add(postgres::bytea(item.hash));
        bytes.add(postgres::bytea(*item.bytes));
        position.add_number(++position_);
    }
    pqxx::nontransaction work{connection_};
    work.exec_prepared("bare", tournament_, match.text(), number.text(), epoch.text(), id.text(),
                       device.text(), hash.text(), bytes.text(), position.text());
}

}  // namespace courthand::bench
