#include "courthand/event/about.h"

#include <algorithm>
#include <set>
#include <string>
#include <variant>

namespace courthand::event {
namespace {

/// The persons whom a fact names.
struct Named {
    using Persons = std::vector<std::uint16_t>;
    Persons operator()(const PersonListed& fact) const { return {fact.person}; }
    Persons operator()(const ConflictDeclared& fact) const { return {fact.person}; }
    Persons operator()(const CrewFormed& fact) const { return fact.persons; }
    Persons operator()(const DutyGiven& fact) const {
        Persons referees{fact.first_referee, fact.second_referee};
        std::erase(referees, std::uint16_t{0});
        return referees;
    }
    template <class Other>
    Persons operator()(const Other&) const {
        return {};
    }
};

class About {
  public:
    About(std::span<const Fact> facts, std::optional<std::uint16_t> person)
        : facts_{facts}, person_{person}, about_(facts.size()) {
        for (const Fact& fact : facts)
            if (const auto* const listed = std::get_if<PersonListed>(&fact);
                listed != nullptr && is(listed->person))
                teams_.insert(listed->team);
        teams_.erase("");
    }

    std::vector<FactNumber> all() {
        std::vector<FactNumber> found;
        for (std::size_t i = 0; i < facts_.size(); ++i) {
            about_[i] = std::visit(*this, facts_[i]);
            if (about_[i]) found.push_back(static_cast<FactNumber>(i + 1));
        }
        return found;
    }

    bool operator()(const RosterFrozen& fact) const { return is_of(fact.team); }
    bool operator()(const TeamWithdrawn& fact) const { return is_of(fact.team); }
    bool operator()(const NoteWritten& fact) const {
        return !fact.team.empty() && is_of(fact.team);
    }
    bool operator()(const TakenBack& fact) const {
        return fact.fact >= 1 && fact.fact <= about_.size() && about_[fact.fact - 1];
    }
    template <class Other>
    bool operator()(const Other& fact) const {
        const auto persons = Named{}(fact);
        return std::any_of(persons.begin(), persons.end(),
                           [&](std::uint16_t person) { return is(person); });
    }

  private:
    [[nodiscard]] bool is(std::uint16_t person) const { return person_.value_or(person) == person; }
    /// Of anybody: also a list of which only the numbers were told.
    [[nodiscard]] bool is_of(const std::string& team) const {
        return !person_ || teams_.contains(team);
    }

    std::span<const Fact> facts_;
    std::optional<std::uint16_t> person_;
    std::set<std::string> teams_;
    std::vector<bool> about_;
};

}  // namespace

std::vector<FactNumber> facts_about(std::span<const Fact> facts,
                                    std::optional<std::uint16_t> person) {
    return About{facts, person}.all();
}

std::vector<std::uint16_t> persons_told(std::span<const Fact> facts, FactNumber number) {
    const Fact& fact = facts[number - 1];
    const auto* const back = std::get_if<TakenBack>(&fact);
    if (back == nullptr) return std::visit(Named{}, fact);
    if (back->fact < 1 || back->fact > facts.size()) return {};
    return std::visit(Named{}, facts[back->fact - 1]);
}

}  // namespace courthand::event
