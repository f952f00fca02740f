// What a person changes in a crew, kept apart from the crew: another desk may
// change that meanwhile.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

namespace courthand::seats {

class CrewChange {
  public:
    using Persons = std::vector<std::uint16_t>;

    /// The person is put into the crew, or taken out of it.
    void toggle(const Persons& crew, std::uint16_t person) {
        const bool in = has(of(crew), person);
        drop(in ? added_ : removed_, person);
        (in ? removed_ : added_).push_back(person);
    }
    /// The crew with the change.
    [[nodiscard]] Persons of(const Persons& crew) const {
        Persons all;
        for (const std::uint16_t person : crew)
            if (!has(removed_, person)) all.push_back(person);
        for (const std::uint16_t person : added_)
            if (!has(all, person)) all.push_back(person);
        return all;
    }
    /// Those who were put in or taken out.
    [[nodiscard]] bool touches(std::uint16_t person) const {
        return has(added_, person) || has(removed_, person);
    }
    [[nodiscard]] static bool has(const Persons& persons, std::uint16_t person) {
        return std::find(persons.begin(), persons.end(), person) != persons.end();
    }

  private:
    static void drop(Persons& persons, std::uint16_t person) {
        persons.erase(std::remove(persons.begin(), persons.end(), person), persons.end());
    }

    Persons added_;
    Persons removed_;
};

}  // namespace courthand::seats
