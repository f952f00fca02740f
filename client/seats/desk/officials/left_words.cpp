#include "officials/left_words.h"

#include <variant>

#include "venue_words.h"

namespace courthand::seats {

std::vector<event::FactNumber> listings(const event::TournamentState& state, std::uint16_t person) {
    std::vector<event::FactNumber> numbers;
    for (event::FactNumber number = 1; number <= state.last(); ++number) {
        const auto* const fact = std::get_if<event::PersonListed>(&state.facts[number - 1]);
        if (fact != nullptr && fact->person == person && state.counts[number - 1])
            numbers.push_back(number);
    }
    return numbers;
}

std::set<std::uint16_t> numbers_given(const event::TournamentState& state) {
    std::set<std::uint16_t> numbers;
    for (const auto& fact : state.facts)
        if (const auto* const listed = std::get_if<event::PersonListed>(&fact))
            numbers.insert(listed->person);
    return numbers;
}

std::map<std::uint16_t, QString> persons_in_words(const venue::EventBook& book) {
    std::map<std::uint16_t, QString> persons;
    // In the order of the facts: a newer name takes the place of an older one.
    for (const auto& [number, words] : *book.words) {
        if (number < 1 || number > book.state->last()) continue;
        const event::Fact& fact = book.state->facts[number - 1];
        if (const auto* const listed = std::get_if<event::PersonListed>(&fact))
            persons[listed->person] = text(words);
        else if (const auto* const conflict = std::get_if<event::ConflictDeclared>(&fact))
            persons.try_emplace(conflict->person);
    }
    return persons;
}

}  // namespace courthand::seats
