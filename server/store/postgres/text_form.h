// Values as PostgreSQL reads and writes them in text: bytea as hex, arrays, moments.
#pragma once

#include <chrono>
#include <optional>
#include <pqxx/pqxx>
#include <string>
#include <string_view>

#include "server/domain/ids.h"
#include "server/store/match_store.h"

namespace courthand::server::postgres {

/// "\x0a1b…": what a bytea parameter or column looks like.
[[nodiscard]] std::string bytea(std::string_view bytes);
[[nodiscard]] std::string bytea(const Hash& hash);
[[nodiscard]] std::string bytes_of(const pqxx::field& field);
[[nodiscard]] Hash hash_of_field(const pqxx::field& field);

/// Microseconds since 1970 for `to_moment` in SQL, and back from `extract(epoch …)` times 10^6.
[[nodiscard]] std::int64_t microseconds(ServerTime time);
[[nodiscard]] ServerTime moment(const pqxx::field& microseconds);
[[nodiscard]] std::optional<std::int64_t> microseconds(const std::optional<ServerTime>& time);

[[nodiscard]] Uuid uuid_of(const pqxx::field& field);
template <class I>
[[nodiscard]] I id_of(const pqxx::field& field) {
    return I{uuid_of(field)};
}
/// Text of an id, or null for the nil id.
template <class I>
[[nodiscard]] std::optional<std::string> text_or_null(const I& id) {
    if (id.nil()) return std::nullopt;
    return to_text(id);
}

/// A literal for `$n::type[]`, element by element. Every element is quoted.
class ArrayText {
  public:
    void add(std::string_view element);
    void add_number(std::uint64_t number);
    void add_null();
    [[nodiscard]] std::string text() const { return text_ + "}"; }

  private:
    void next();
    std::string text_ = "{";
};

}  // namespace courthand::server::postgres
