#include "officials/persons_told.h"

#include <QCoreApplication>
#include <variant>

#include "officials/person_words.h"

namespace courthand::seats {

namespace {

struct Persons {
    Q_DECLARE_TR_FUNCTIONS(Persons)
};

}  // namespace

std::vector<std::uint16_t> persons_told(const event::TournamentState& state,
                                        const event::Fact& fact) {
    if (const auto* const listed = std::get_if<event::PersonListed>(&fact)) return {listed->person};
    if (const auto* const conflict = std::get_if<event::ConflictDeclared>(&fact))
        return {conflict->person};
    if (const auto* const crew = std::get_if<event::CrewFormed>(&fact)) return crew->persons;
    if (const auto* const duty = std::get_if<event::DutyGiven>(&fact)) {
        std::vector<std::uint16_t> referees;
        for (const std::uint16_t referee : {duty->first_referee, duty->second_referee})
            if (referee != 0) referees.push_back(referee);
        return referees;
    }
    const auto* const back = std::get_if<event::TakenBack>(&fact);
    if (back == nullptr || back->fact < 1 || back->fact > state.facts.size() ||
        std::holds_alternative<event::TakenBack>(state.facts[back->fact - 1]))
        return {};
    return persons_told(state, state.facts[back->fact - 1]);
}

QString numbered_words(const event::TournamentState& state, std::uint16_t number) {
    const auto person = state.persons.find(number);
    if (person == state.persons.end()) return Persons::tr("person %1").arg(number);
    return Persons::tr("%1 %2", "role, number").arg(role_words(person->second.role)).arg(number);
}

}  // namespace courthand::seats
