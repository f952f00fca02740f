// A match script as a course of facts, each with the state that the core folds before and after it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/script/script.h"

namespace courthand::client::test {

class MatchCourse {
  public:
    /// Throws std::runtime_error with place and cure when the file is no good script.
    explicit MatchCourse(const std::string& path);

    struct Step {
        std::uint32_t line = 0;  ///< of the script
        Fact fact{};
        std::string text;
        MatchState before{};
        MatchState after{};
        bool raises = false;  ///< the rules have something against it at once
    };

    [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }
    [[nodiscard]] const Script& script() const { return script_; }
    [[nodiscard]] const Rules& rules() const { return profile_->rules; }
    [[nodiscard]] const Roster& roster(Team team) const { return rosters_[team]; }
    /// Of the whole script, folded from its records at once.
    [[nodiscard]] std::uint64_t hash() const;

    template <class F>
    [[nodiscard]] std::size_t count() const {
        std::size_t n = 0;
        for (const Step& step : steps_) n += std::holds_alternative<F>(step.fact) ? 1U : 0U;
        return n;
    }
    /// The fact at `index` if it is of that kind, or null.
    template <class F>
    [[nodiscard]] const F* at(std::size_t index) const {
        return index < steps_.size() ? std::get_if<F>(&steps_[index].fact) : nullptr;
    }

  private:
    Script script_;
    const Profile* profile_ = nullptr;
    PerTeam<Roster> rosters_;
    std::vector<Step> steps_;
};

}  // namespace courthand::client::test
