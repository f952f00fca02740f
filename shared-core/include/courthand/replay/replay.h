// Goes through a script line by line: judges its entries, resolves its corrections and checks its
// expectations. One thread; the rules and the script must outlive the replay.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "courthand/history/change.h"
#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "courthand/script/script.h"

namespace courthand {

class ScriptReplay {
  public:
    ScriptReplay(const Rules& rules, const Script& script) : rules_{rules}, script_{script} {}

    /// Goes one line further; false when there is none left.
    bool next();

    // Where the replay stands; meaningful once `next` has returned true.
    [[nodiscard]] const ScriptLine& line() const { return script_.lines[next_ - 1]; }
    [[nodiscard]] bool at_expectation() const {
        return std::holds_alternative<Expectation>(line().content);
    }
    /// Number of the last entry; 0 before the first.
    [[nodiscard]] EntryNumber entry() const noexcept {
        return static_cast<EntryNumber>(records_.size());
    }
    [[nodiscard]] const MatchState& state() const noexcept { return state_; }
    /// What the last entry raised, opened, cleared or ruled. A correction shows what its own fact
    /// raised in its place.
    [[nodiscard]] const VerdictList& raised() const noexcept { return raised_; }
    [[nodiscard]] VerdictList standing() const { return courthand::standing(rules_, state_); }
    /// The verdicts that the last entry, a correction, made appear, vanish or change.
    [[nodiscard]] const std::vector<VerdictChange>& changes() const noexcept { return changes_; }
    /// For an expectation that does not hold: what is instead. Otherwise empty.
    [[nodiscard]] const std::string& found() const noexcept { return found_; }
    /// True when the last entry is a correction that changes nothing.
    [[nodiscard]] bool without_effect() const noexcept { return without_effect_; }

  private:
    void take(const Record& record);
    void fold_again();

    const Rules& rules_;
    const Script& script_;
    std::size_t next_ = 0;
    std::vector<Record> records_;
    MatchState state_{};
    VerdictList raised_;
    std::vector<VerdictChange> changes_;
    std::string found_;
    bool without_effect_ = false;
};

/// An expectation that does not hold.
struct Failure {
    std::uint32_t line = 0;
    std::string expected;  ///< as canonical script line
    std::string found;
};

/// Every expectation of a script that does not hold, in order.
[[nodiscard]] std::vector<Failure> failures(const Rules& rules, const Script& script);

/// What is instead of the expectation; empty when it holds. `raised` belongs to the last entry.
[[nodiscard]] std::string mismatch(const Expectation& expected, const Rules& rules,
                                   const MatchState& state, const VerdictList& raised);

/// The same for an expectation about what the last correction changed.
[[nodiscard]] std::string mismatch(const Expectation& expected,
                                   const std::vector<VerdictChange>& changes);

/// "appeared", "vanished" or "changed", as scripts expect it.
[[nodiscard]] std::string_view change_word(VerdictChange::Kind kind);
/// "vanished open wrong-server A remedy point-and-service B cancel 0, entry 14".
[[nodiscard]] std::string change_words(const VerdictChange& change);

/// A verdict as a script names it: "open wrong-server A remedy point-and-service B cancel 0".
[[nodiscard]] std::string verdict_words(const Verdict& verdict);

}  // namespace courthand
