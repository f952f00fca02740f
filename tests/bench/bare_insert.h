// The bare limit of storing entries: rows of the same bytes, many in one statement, each statement
// a commit of its own, on one connection.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "server/testing/test_database.h"

namespace courthand::bench {

struct BareRows {
    std::string match_text;  ///< id as text
    std::vector<const std::string*> entries;
};

class BareInsert {
  public:
    /// Needs COURTHAND_TEST_DSN.
    BareInsert();

    /// Seconds until every row is durable, `rows_at_once` in one statement; writing the statement
    /// is part of it.
    [[nodiscard]] double seconds(const std::vector<BareRows>& matches, std::size_t rows_at_once);

  private:
    server::testing::TestDatabase database_;
};

}  // namespace courthand::bench
