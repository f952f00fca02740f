// What must happen before the next service, so that a table can see to it in time.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "courthand/match/jersey.h"
#include "courthand/match/state.h"
#include "courthand/match/team.h"
#include "courthand/rules/profile.h"

namespace courthand {

/// Something that must happen before the next service.
struct Prompt {
    enum class Kind : std::uint8_t {
        none,
        roster_missing,
        toss_missing,
        set_to_start,
        lineup_missing,
        libero_box_open,
        check_missing,
        /// `players[0]` returns for libero `players[1]`, who is in the front row or would serve
        /// where he may not.
        libero_must_leave,
        place_empty,
        barred_must_leave,  ///< `players[0]` must be substituted
        captain_to_name,
        courts_to_switch,
        serve,  ///< `players[0]` of `team` serves
        decide_rally,
        match_finished,
        match_interrupted,  ///< nobody plays until it is resumed
    };
    Kind kind = Kind::none;
    Team team{};
    std::array<Jersey, 2> players{};
    friend constexpr bool operator==(const Prompt&, const Prompt&) = default;
};
/// Two sheets, boxes, checks and captains, one prompt for each place on court, the change of courts
/// and the service.
inline constexpr std::size_t most_prompts = 2 + 2 + 2 + 2 + 12 + 1 + 1;

/// All that must happen before the next service, in the order in which a table sees to it. Never
/// empty; the service itself, a finished match or a rally to be decided comes last.
class PromptList {
  public:
    void add(const Prompt& prompt) noexcept { prompts_[count_++] = prompt; }
    [[nodiscard]] std::size_t size() const noexcept { return count_; }
    [[nodiscard]] const Prompt& front() const noexcept { return prompts_[0]; }
    [[nodiscard]] const Prompt* begin() const noexcept { return prompts_.data(); }
    [[nodiscard]] const Prompt* end() const noexcept { return prompts_.data() + count_; }

  private:
    std::array<Prompt, most_prompts> prompts_{};
    std::size_t count_ = 0;
};
[[nodiscard]] PromptList next_steps(const Rules& rules, const MatchState& state) noexcept;
/// The first of them, for one line on the screen.
[[nodiscard]] Prompt next_step(const Rules& rules, const MatchState& state) noexcept;

}  // namespace courthand
