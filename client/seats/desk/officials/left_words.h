// Persons as the facts tell them: how often one was listed, and the words that
// stay beside the record when somebody is taken off the list.
#pragma once

#include <QString>
#include <cstdint>
#include <map>
#include <set>
#include <vector>

#include "venue/event_book.h"

namespace courthand::seats {

/// The facts that list the person and count.
[[nodiscard]] std::vector<event::FactNumber> listings(const event::TournamentState& state,
                                                      std::uint16_t person);
/// Every number that was ever given to somebody, who may have been taken off
/// the list since.
[[nodiscard]] std::set<std::uint16_t> numbers_given(const event::TournamentState& state);
/// Persons about whom something is kept in words, their name or why they have a
/// conflict of interest: the newest name of each, empty where it is none of the
/// words.
[[nodiscard]] std::map<std::uint16_t, QString> persons_in_words(const venue::EventBook& book);

}  // namespace courthand::seats
