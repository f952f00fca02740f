// Reads comma-separated values (RFC 4180): quoted cells, line ends of every system, a byte order
// mark, and semicolons or tabs in place of commas, as office programs write them. Pure.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace courthand::server::desk {

struct CsvRow {
    std::uint32_t line = 0;  ///< of the file, from 1: where the row begins
    std::vector<std::string> cells;
};

struct CsvError {
    std::uint32_t line = 0;
    std::string message;
    std::string cure;
};

/// Rows in order; rows with nothing but empty cells are left out. The separator is taken from the
/// first row.
[[nodiscard]] std::variant<std::vector<CsvRow>, CsvError> read_csv(std::string_view text);

/// A row of a file with more cells is not a team list.
inline constexpr std::size_t most_cells = 64;

}  // namespace courthand::server::desk
