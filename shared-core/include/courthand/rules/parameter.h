// What each parameter of a profile is for: who acts on it, and which verdicts rest on it. A value
// that was not seen in print is named beside every verdict that rests on it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// Who acts on a parameter.
enum class ActedBy : std::uint8_t {
    judge,    ///< the core, when it judges an entry
    history,  ///< the core, when it looks back at a record
    plan,     ///< the format of a match takes it over when the match is planned
    table,    ///< a clock or a word on the screen of a seat
    desk,     ///< what the tournament desk and the head official are told, and when
    event,    ///< whoever holds the event chooses within it: the program has no check for it
    referee,  ///< a referee: the program has no clock or check for it
};

/// One parameter as the table of all parameters has it.
struct ParameterRow {
    std::string_view key;  ///< "libero.serving-positions"
    ActedBy acted_by = ActedBy::judge;
    /// Verdicts that come, stay away or cost something else by this value.
    std::span<const Reason> reasons;
    std::span<const Action> actions;  ///< every verdict with such a remedy rests on it too
};

/// All parameters, in the order of the schema.
[[nodiscard]] std::vector<ParameterRow> parameter_rows();

/// Keys and other values that the parameter could have, as a profile file writes them.
[[nodiscard]] std::vector<std::string> other_values(const Profile& profile, std::string_view key);
/// The rules of a profile with one parameter changed; `value` is one of `other_values`.
[[nodiscard]] Rules with_value(const Rules& rules, std::string_view key, std::string_view value);

/// Which of the profile's values that were not seen in print a verdict rests on: those its reason
/// depends on, and those its remedy depends on. The pointers live as long as the profile.
[[nodiscard]] std::vector<const ProfileValue*> unproven_values(const Profile& profile,
                                                               Reason reason, Action action);

/// "memory", "common practice", "open" or "published".
[[nodiscard]] std::string_view evidence_word(Evidence evidence) noexcept;

/// One sentence for a person: "rests on values not seen in print: delay.point-from = 2 (memory)";
/// empty when there is none.
[[nodiscard]] std::string unproven_words(const Profile& profile, Reason reason, Action action);

}  // namespace courthand
