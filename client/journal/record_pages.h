// Rows read straight from the pages of an SQLite file, without its header, trees or indexes.
//
// The layout is the published SQLite database file format (table leaf pages, type 0x0d). Only rows
// that lie on one page are read. Values are not trusted: the caller checks each row's seal.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace courthand::client {

struct Null {};
using RawValue = std::variant<Null, std::int64_t, std::string>;
using RawRow = std::vector<RawValue>;

/// Calls `row` for every readable row of a table leaf page. `first` marks page 1, whose first 100
/// bytes are the file header.
void rows_of_page(std::string_view page, bool first, const std::function<void(const RawRow&)>& row);

}  // namespace courthand::client
