// The bare limit of storing entries: rows of the same bytes, many in one statement, each statement
// a commit of its own, on one connection.
#pragma once

#include <cstddef>
#include <pqxx/pqxx>
#include <string>
#include <string_view>
#include <vector>

#include "server/testing/test_database.h"

namespace courthand::bench {

struct BareRows {
    std::string match_text;  ///< id as text
    std::vector<const std::string*> entries;
};

/// Points into what its maker holds.
struct BareRow {
    std::string_view match_text;
    std::size_t number = 0;
    std::string_view bytes;
};

class BareInsert {
  public:
    /// Needs COURTHAND_TEST_DSN.
    BareInsert();

    /// One statement and one commit; writing the statement is part of it.
    void insert(const std::vector<BareRow>& rows);

    /// Seconds until every row is durable, `rows_at_once` in one statement.
    [[nodiscard]] double seconds(const std::vector<BareRows>& matches, std::size_t rows_at_once);

  private:
    server::testing::TestDatabase database_;
    pqxx::connection connection_{database_.dsn()};
};

}  // namespace courthand::bench
