#include "script/format_clauses.h"

#include <fmt/format.h>

namespace courthand::script {

void read_clause(LineReader& line, const FormatClause& clause, MatchFormat& format) {
    format.*clause.field = line.number(clause.what, clause.low, clause.high);
    if (clause.field == &MatchFormat::deciding_points)
        format.switch_at = static_cast<std::uint8_t>((format.deciding_points + 1) / 2);
}

void read_sets(LineReader& line, MatchFormat& format, bool all_played) {
    format.sets = line.number("the number of sets", 1, MatchFormat::most_sets);
    format.all_sets_played = all_played ? 1 : 0;
    if (!all_played && format.sets % 2 == 0)
        line.fail(fmt::format("best of {} can end in a draw", format.sets),
                  "write best-of 1, 3 or 5; a fixed number of sets is 'sets 2'");
}

}  // namespace courthand::script
