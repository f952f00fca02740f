// What papers say about a match, in words of the trade.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/state.h"

namespace courthand::server::papers {

/// The name of a division, or its code where nobody gave it one.
[[nodiscard]] std::string division_words(const event::Division& division);

/// Of a side of a match: the team, else where it comes from ("winner of M7"), else "bye".
[[nodiscard]] std::string side_words(const event::TournamentState& state, event::MatchRef match,
                                     std::size_t which);

/// "court 3, 14:30"; empty when it is not placed. `with_day`: of an event of several days.
[[nodiscard]] std::string place_words(const event::MatchState& match, bool with_day);

/// The team that works it, or where that comes from ("loser of M7"); empty: nobody.
[[nodiscard]] std::string work_words(const event::TournamentState& state, event::MatchRef match);
/// Numbers of the referees, the first one first: "3, 4", "3", "-, 4"; empty: none is named.
[[nodiscard]] std::string referees_words(const event::Duty& duty);

/// "2-0", or what stands for a match that was not played to its end: "default".
[[nodiscard]] std::string sets_words(const event::Result& result);
/// "25-20 25-22", as `first` has it; turned round for the second side.
[[nodiscard]] std::string points_words(const event::Result& result, bool second = false);
/// Where the result comes from: "table", "paper", "default" …
[[nodiscard]] std::string origin_words(const event::Result& result);

struct SetCount {
    unsigned first = 0;
    unsigned second = 0;
};
[[nodiscard]] SetCount sets_won(const event::Result& result);

/// "28 Nov".
[[nodiscard]] std::string short_day_words(event::Date date);
/// "28 November 2026", and "28 to 29 November 2026" or two whole days.
[[nodiscard]] std::string days_words(event::Date first, event::Date last);

}  // namespace courthand::server::papers
