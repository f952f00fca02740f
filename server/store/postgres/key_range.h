// Rows looked up by a key, through the index of that key from the first day.
#pragma once

#include <string>

namespace courthand::server::postgres {

/// "This column has this value", for the last column of an index whose others are compared beside
/// it. Of a table that was never analysed, the planner thinks that any index does, for all hold few
/// rows; a range that is asked for in its order only the index that ends in this column can give. A
/// plan lives as long as its connection, and must do for all rows that follow.
[[nodiscard]] inline std::string by_key(const std::string& column, const std::string& value) {
    return column + " between " + value + " and " + value + " order by " + column;
}

}  // namespace courthand::server::postgres
