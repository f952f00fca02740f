// The match script: a text form of a record, one entry a line. Read and written here; the grammar
// is in shared-core/SCRIPT.md.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// What a line asks the replay to check.
struct Expectation {
    enum class Kind : std::uint8_t {
        legal,     ///< the last entry raised nothing
        none,      ///< nothing armed or open
        armed,
        open,
        score,
        serving,
        server,
        court,
        captain,
        libero_on,
        libero_off,
        sets,
        winner,
        subs,
        /// The last entry raised `reason`, in whatever phase.
        raised,
    };
    Kind kind = Kind::legal;
    Team team{};
    Reason reason{};
    bool has_remedy = false;
    Action action = Action::none;
    bool remedy_has_team = false;
    Team remedy_team{};
    bool has_cancel = false;
    std::uint8_t cancel = 0;
    Score score{};            ///< also sets won
    std::uint8_t set = 0;     ///< 0: the present one
    std::array<Jersey, 6> numbers{};
    std::uint8_t count = 0;
};

struct ScriptLine {
    std::uint32_t line = 0;  ///< from 1
    std::variant<Record, Expectation> content;
    std::string text;        ///< remark, signature or cause words that no fact carries
};

/// A whole script. `play` lines are written out as single rallies.
struct Script {
    std::string source;   ///< the first comment line, without '#'
    std::string profile;  ///< profile id
    PerTeam<std::string> names;
    std::vector<ScriptLine> lines;
};

struct ScriptError {
    std::uint32_t line = 0;
    std::uint32_t column = 0;  ///< from 1, counted in characters
    std::string message;
    std::string cure;
};

[[nodiscard]] std::variant<Script, ScriptError> read_script(std::string_view text);
[[nodiscard]] std::string write_script(const Script& script);
/// One fact or correction as a script line, without the line end.
[[nodiscard]] std::string script_line(const Record& record);

/// The records of a script in order, without its expectations.
[[nodiscard]] std::vector<Record> records(const Script& script);

}  // namespace courthand
