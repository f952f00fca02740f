// The match script: a text form of a record, one entry a line. Read and written here; the grammar
// is in shared-core/SCRIPT.md.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/team.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/prompt.h"
#include "courthand/rules/reason.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// What a line asks the replay to check.
struct Expectation {
    enum class Kind : std::uint8_t {
        legal,  ///< the last entry raised nothing
        none,   ///< nothing armed or open
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
        improper,  ///< improper requests written down for the team: `count`
        delays,    ///< delay sanctions of the team in the profile's scope: `count`
        timeouts,  ///< time-outs of the team in this set: `count`
        left,      ///< the team on the left as seen from the scorer's table
        liberos,   ///< who may act as libero in this set, in any order: `count` of `numbers`
        cleared,   ///< the last entry ended such a verdict without a ruling
        // What the last correction did to the verdicts of the record as they were raised.
        appeared,
        vanished,
        changed,
        next,     ///< what must happen first before the next service is `prompt`
        waiting,  ///< `prompt` is among what must happen
    };
    Kind kind = Kind::legal;
    Team team{};
    Reason reason{};
    bool has_remedy = false;
    Action action = Action::none;
    bool remedy_has_team = false;
    Team remedy_team{};
    bool has_undo = false;  ///< the remedy also takes the act back
    bool has_cancel = false;
    std::uint8_t cancel = 0;
    Score score{};         ///< also sets won
    std::uint8_t set = 0;  ///< 0: the present one
    Prompt::Kind prompt = Prompt::Kind::none;
    bool prompt_has_team = false;
    std::array<Jersey, 6> numbers{};
    std::uint8_t count = 0;
    friend constexpr bool operator==(const Expectation&, const Expectation&) = default;
};

struct ScriptLine {
    std::uint32_t line = 0;  ///< from 1
    std::variant<Record, Expectation> content;
    std::string text;  ///< words of a remark, signature or protest, which no fact carries

    /// Lines are equal when they say the same, wherever they stand.
    friend bool operator==(const ScriptLine& x, const ScriptLine& y) {
        return x.content == y.content && x.text == y.text;
    }
};

/// More characters than a line, a team name or the text of a remark needs: a longer one is a
/// binary or damaged file, and an error message must be able to quote it.
inline constexpr std::size_t longest_line = 500;
inline constexpr std::size_t longest_name = 80;
/// Six thousand entries of the usual length need less than a fifth of it.
inline constexpr std::size_t largest_script = 1024 * 1024;  // bytes

/// A whole script. A `play` line is written out as single rallies, each a serve and its winner. The
/// first record is always the format of the match, taken from the profile when no line gives it.
struct Script {
    std::string source;   ///< the first comment line, without '#'
    std::string profile;  ///< profile id
    PerTeam<std::string> names;
    std::vector<ScriptLine> lines;
    friend bool operator==(const Script&, const Script&) = default;
};

struct ScriptError {
    std::uint32_t line = 0;
    std::uint32_t column = 0;  ///< from 1, counted in characters
    std::string message;
    std::string cure;
};

/// The profile an id names, or null.
using FindProfile = std::function<const Profile*(std::string_view id)>;

/// Reads a script, or says what is wrong with its first bad line. The second form finds profiles
/// that are not built in.
[[nodiscard]] std::variant<Script, ScriptError> read_script(std::string_view text);
[[nodiscard]] std::variant<Script, ScriptError> read_script(std::string_view text,
                                                            const FindProfile& profiles);

/// Writes a script in its one canonical form: `read_script(write_script(s)) == s` for every script
/// that was read. Comments are not kept, but for the source.
[[nodiscard]] std::string write_script(const Script& script);
[[nodiscard]] std::string write_script(const Script& script, const FindProfile& profiles);

/// One fact or correction as a script line, without the line end.
[[nodiscard]] std::string script_line(const Record& record);
[[nodiscard]] std::string script_line(const Expectation& expectation);

/// The records of a script in order, without its expectations.
[[nodiscard]] std::vector<Record> records(const Script& script);

}  // namespace courthand
