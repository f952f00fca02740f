#include "tests/bench/bare_insert.h"

#include <chrono>

namespace courthand::bench {
namespace {

/// Rows as the arrays of one statement.
class Arrays {
  public:
    void add(const BareRow& row) {
        const char separator = matches_.empty() ? '{' : ',';
        matches_ += separator;
        matches_ += row.match_text;
        numbers_ += separator;
        numbers_ += std::to_string(row.number);
        bytes_ += separator;
        bytes_ += "\"\\\\x";
        constexpr std::string_view digits = "0123456789abcdef";
        for (const char c : row.bytes) {
            const auto byte = static_cast<unsigned char>(c);
            bytes_ += digits[byte >> 4];
            bytes_ += digits[byte & 15];
        }
        bytes_ += '"';
    }
    void insert(pqxx::connection& connection) const {
        pqxx::nontransaction work{connection};
        work.exec_prepared("add", matches_ + "}", numbers_ + "}", bytes_ + "}");
    }

  private:
    std::string matches_;
    std::string numbers_;
    std::string bytes_;
};

}  // namespace

BareInsert::BareInsert() {
    (void)database_.run(
        "create table bare (match_id uuid, number bigint, bytes bytea not null, "
        "primary key (match_id, number))");
    connection_.prepare("add",
                        "insert into bare select * from "
                        "unnest($1::uuid[], $2::bigint[], $3::bytea[])");
    connection_.prepare_now("add");
}

void BareInsert::insert(const std::vector<BareRow>& rows) {
    if (rows.empty()) return;
    Arrays arrays;
    for (const BareRow& row : rows) arrays.add(row);
    arrays.insert(connection_);
}

double BareInsert::seconds(const std::vector<BareRows>& matches, std::size_t rows_at_once) {
    const auto began = std::chrono::steady_clock::now();
    std::vector<BareRow> rows;
    for (const BareRows& match : matches) {
        std::size_t number = 0;
        for (const std::string* bytes : match.entries) {
            rows.push_back({match.match_text, ++number, *bytes});
            if (rows.size() < rows_at_once) continue;
            insert(rows);
            rows.clear();
        }
    }
    insert(rows);
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

}  // namespace courthand::bench
