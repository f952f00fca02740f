// Rows of the table `match` as values, and back.
#pragma once

#include "server/store/postgres/text_form.h"

namespace courthand::server::postgres {

/// Columns in the order in which `stored_match` reads them.
extern const char* const match_columns;
[[nodiscard]] StoredMatch stored_match(TournamentId tournament, const pqxx::row& row);

/// Columns of the head in the order in which `match_head` reads them, from `first` on.
extern const char* const head_columns;
[[nodiscard]] MatchHead match_head(const pqxx::row& row, int first);

[[nodiscard]] std::string format_text(const MatchFormat& format);
[[nodiscard]] std::string profile_hash_text(std::uint64_t hash);

}  // namespace courthand::server::postgres
