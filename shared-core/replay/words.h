// Words of the replay's own reports.
#pragma once

#include <string>
#include <string_view>

#include "courthand/match/state.h"
#include "script/words.h"

namespace courthand::replay {

[[nodiscard]] constexpr char letter(Team team) noexcept {
    return team == Team::A ? 'A' : 'B';
}

[[nodiscard]] inline std::string number(Jersey jersey) {
    return jersey.worn() ? std::to_string(static_cast<unsigned>(jersey.number())) : "none";
}

inline constexpr std::array<script::Word<Phase>, 5> phase_words{{
    {"armed", Phase::armed},
    {"open", Phase::open},
    {"cleared", Phase::cleared},
    {"accepted", Phase::accepted},
    {"overruled", Phase::overruled},
}};

inline constexpr std::array<script::Word<Stage>, 7> stage_words{{
    {"before-match", Stage::before_match},
    {"before-set", Stage::before_set},
    {"dead-ball", Stage::dead_ball},
    {"whistled", Stage::whistled},
    {"in-play", Stage::in_play},
    {"set-over", Stage::set_over},
    {"match-over", Stage::match_over},
}};

}  // namespace courthand::replay
