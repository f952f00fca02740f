// A database that went back below a running server.
#pragma once

#include <cstdint>
#include <string>

#include "server/testing/test_database.h"

namespace courthand::server::testing {

/// Takes everything after this position of the feed out of the database, as a restored backup or
/// a standby that was behind would; the server is not told.
inline void put_back(const TestDatabase& database, std::uint64_t position) {
    const std::string after = std::to_string(position);
    for (const std::string table : {"feed", "entry", "branch"})
        database.run("delete from " + table + " where position > " + after);
    database.run(
        "update match m set last_number = (select count(*) from entry e where e.match_id = "
        "m.match_id), head_hash = coalesce((select e.hash from entry e where e.match_id = "
        "m.match_id order by e.number desc limit 1), m.head_hash)");
    database.run("update tournament set feed_head = " + after);
}

}  // namespace courthand::server::testing
