// Officials in words. A name stands beside the record and may be erased: then a person is a number.
#pragma once

#include <QString>
#include <QStringList>
#include <cstdint>
#include <string>

#include "courthand/event/duty.h"
#include "venue/event_book.h"

namespace courthand::seats {

[[nodiscard]] QString role_words(event::Role role);
/// "official 7": without the name; "person 7" when nobody of that number is listed.
[[nodiscard]] QString numbered_words(const event::TournamentState& state, std::uint16_t person);
/// The name with its number, "Robin Example (7)"; without a name "official 7".
[[nodiscard]] QString person_words(const venue::EventBook& book, std::uint16_t person);
/// "declared: Quayside", "own team: Mill Lane".
[[nodiscard]] QString interest_words(const event::TournamentState& state,
                                     const event::Interest& interest);
/// "Robin Example (7) works A2 at this time".
[[nodiscard]] QString clash_words(const venue::EventBook& book, const event::TournamentState& state,
                                  const event::Clash& clash);
/// What speaks against the court and time that a match gets, of its teams and of who works it:
/// "Clash: Mill Lane plays A2 at this time", a line each. What speaks against the duties of other
/// matches on account of it too: "Clash: A1: Mill Lane plays A2 at this time".
[[nodiscard]] QStringList place_clash_words(const venue::EventBook& book,
                                            const event::TournamentState& before,
                                            const event::TournamentState& after,
                                            const std::string& match);
/// "work: Mill Lane, crew Blue, referees 1 and 2": numbers, as it stands in lists; empty: nobody.
[[nodiscard]] QString duty_words(const event::TournamentState& state, event::MatchRef match);
/// The same with names, a line each.
[[nodiscard]] QStringList duty_lines(const venue::EventBook& book, event::MatchRef match);

}  // namespace courthand::seats
