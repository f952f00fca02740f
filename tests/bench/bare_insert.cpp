#include "tests/bench/bare_insert.h"

#include <chrono>
#include <pqxx/pqxx>
#include <string_view>

namespace courthand::bench {
namespace {

/// Rows as the arrays of one statement.
class Arrays {
  public:
    void add(const std::string& match, std::size_t number, std::string_view bytes) {
        const char separator = count_++ == 0 ? '{' : ',';
        matches_ += separator;
        matches_ += match;
        numbers_ += separator;
        numbers_ += std::to_string(number);
        bytes_ += separator;
        bytes_ += "\"\\\\x";
        constexpr std::string_view digits = "0123456789abcdef";
        for (const char c : bytes) {
            const auto byte = static_cast<unsigned char>(c);
            bytes_ += digits[byte >> 4];
            bytes_ += digits[byte & 15];
        }
        bytes_ += '"';
    }
    void insert(pqxx::connection& connection) {
        if (count_ == 0) return;
        pqxx::nontransaction work{connection};
        work.exec_prepared("add", matches_ + "}", numbers_ + "}", bytes_ + "}");
        matches_.clear();
        numbers_.clear();
        bytes_.clear();
        count_ = 0;
    }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }

  private:
    std::string matches_;
    std::string numbers_;
    std::string bytes_;
    std::size_t count_ = 0;
};

}  // namespace

BareInsert::BareInsert() {
    (void)database_.run(
        "create table bare (match_id uuid, number bigint, bytes bytea not null, "
        "primary key (match_id, number))");
}

double BareInsert::seconds(const std::vector<BareRows>& matches, std::size_t rows_at_once) {
    pqxx::connection connection{database_.dsn()};
    connection.prepare("add",
                       "insert into bare select * from "
                       "unnest($1::uuid[], $2::bigint[], $3::bytea[])");
    connection.prepare_now("add");
    const auto began = std::chrono::steady_clock::now();
    Arrays arrays;
    for (const BareRows& match : matches) {
        std::size_t number = 0;
        for (const std::string* bytes : match.entries) {
            arrays.add(match.match_text, ++number, *bytes);
            if (arrays.count() == rows_at_once) arrays.insert(connection);
        }
    }
    arrays.insert(connection);
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

}  // namespace courthand::bench
