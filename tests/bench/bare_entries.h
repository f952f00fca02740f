// The bare limit of storing many entries: the rows that the server would write, into a table with
// the columns and keys of its own, a statement and a commit for each call.
#pragma once

#include <pqxx/pqxx>
#include <string>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::bench {

class BareEntries {
  public:
    /// `dsn`: a database with the server's tables, `table`: the one that is made there.
    BareEntries(const std::string& dsn, const std::string& table);

    /// Writing the statement is part of it.
    void insert(const std::vector<server::AppendItem>& items);

  private:
    std::string tournament_;
    pqxx::connection connection_;
    server::FeedPosition position_ = 0;
};

}  // namespace courthand::bench
