// A comma-separated file cut into cells, so that a person sees beside each line what is wrong with
// it. What the cells mean is judged by the server alone.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace courthand::venue {

struct CsvLine {
    int number = 0;  ///< line of the file on which it begins, from 1
    std::vector<std::string> cells;
    friend bool operator==(const CsvLine&, const CsvLine&) = default;
};

/// Commas, semicolons or tabs, whichever the first line has more of; quoted cells may hold either,
/// line ends and doubled quotes; a byte order mark is skipped, empty lines are left out. Never
/// fails: whatever cannot be cut stays one cell. At most `most_lines` lines are returned.
[[nodiscard]] std::vector<CsvLine> csv_lines(std::string_view file, std::size_t most_lines);

}  // namespace courthand::venue
