#include "server/testing/query_plan.h"

#include <sstream>

namespace courthand::server::testing {

std::string plan_of(pqxx::connection& connection, const postgres::Statement& statement) {
    pqxx::nontransaction session{connection};
    session.exec("prepare explained as " + statement.sql);
    const auto places = session
                            .exec(
                                "select cardinality(parameter_types) from pg_prepared_statements "
                                "where name = 'explained'")[0][0]
                            .as<int>();
    std::string values;
    for (int i = 0; i < places; ++i) values += i == 0 ? "(null" : ", null";
    std::string plan;
    for (const auto& row :
         session.exec("explain (costs off) execute explained" + values + (places > 0 ? ")" : "")))
        plan.append(row[0].c_str()).push_back('\n');
    session.exec("deallocate explained");
    return plan;
}

std::string scans_in(const std::string& plan, std::initializer_list<const char*> tables) {
    std::istringstream lines{plan};
    std::string scans;
    std::string scan;  // the last line that named a table or an index
    for (std::string line; std::getline(lines, line);) {
        if (line.find("Scan") != std::string::npos) scan = line;
        const bool whole = line.find("Seq Scan") != std::string::npos ||
                           line.ends_with("Index Cond: (tournament_id = $1)");
        for (const std::string table : tables)
            if (whole && scan.find(" on " + table) != std::string::npos) scans += scan + '\n';
    }
    return scans;
}

}  // namespace courthand::server::testing
