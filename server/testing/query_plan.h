// How PostgreSQL would answer a statement: for tests that no statement reads a whole table.
#pragma once

#include <initializer_list>
#include <string>

#include "server/store/postgres/database.h"

namespace courthand::server::testing {

/// The plan of a statement whose parameters are not known, line by line.
[[nodiscard]] std::string plan_of(pqxx::connection& connection,
                                  const postgres::Statement& statement);

/// Lines of a plan that read all rows of a tournament from one of the tables; none when it is good.
[[nodiscard]] std::string scans_in(const std::string& plan,
                                   std::initializer_list<const char*> tables);

}  // namespace courthand::server::testing
