// From the bytes of a record to the state of the match. Client, server and replay all go this way,
// so that the same bytes give the same state everywhere.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"
#include "wire/chain.h"

namespace courthand::wire {

/// A verdict that one entry raised, opened, cleared or ruled.
struct VerdictStep {
    EntryNumber at = 0;  ///< the entry that brought it
    Verdict verdict{};
    friend bool operator==(const VerdictStep&, const VerdictStep&) = default;
};

/// Where its set stood before a fact that counts.
struct FactStep {
    EntryNumber at = 0;
    std::uint8_t set = 0;
    Score score{};
    std::uint16_t rallies = 0;
    friend bool operator==(const FactStep&, const FactStep&) = default;
};

/// Records with their folded state, one after the other; a correction folds all of them again. What
/// is derived from a match goes by its steps and verdicts and need not judge again. Not
/// thread-safe. `rules` must outlive it.
class FactFold {
  public:
    explicit FactFold(const Rules& rules) : rules_{&rules} {}

    void add(const Record& record);

    [[nodiscard]] const MatchState& state() const noexcept { return state_; }
    /// Facts and corrections as written; entry n is at index n - 1.
    [[nodiscard]] const std::vector<Record>& records() const noexcept { return records_; }
    /// One for each fact that counts, in their order.
    [[nodiscard]] const std::vector<FactStep>& steps() const noexcept { return steps_; }
    /// Every verdict so far, in the order of the facts that count.
    [[nodiscard]] const std::vector<VerdictStep>& verdicts() const noexcept { return verdicts_; }
    /// Corrections that name nothing and change nothing.
    [[nodiscard]] const std::vector<EntryNumber>& without_effect() const noexcept {
        return without_effect_;
    }
    /// True when the last record changed what earlier ones had led to.
    [[nodiscard]] bool refolded() const noexcept { return refolded_; }

  private:
    void fold_again();
    void judge_next(const Entry& entry);

    const Rules* rules_;
    std::vector<Record> records_;
    std::vector<FactStep> steps_;
    std::vector<VerdictStep> verdicts_;
    std::vector<EntryNumber> without_effect_;
    MatchState state_{};
    bool refolded_ = false;
};

/// Why an entry was not taken.
struct RecordFault {
    ChainFault chain{};  ///< kind `unreadable` also when only the fact cannot be read
    [[nodiscard]] const std::string& message() const noexcept { return chain.message; }
};

/// A record with its folded state. Grows entry by entry; a correction folds everything again.
/// Not thread-safe. `rules` must outlive it.
class RecordFold {
  public:
    RecordFold(const Uuid& match_id, const Rules& rules);

    /// Takes the next entry, or says why not and stays as it was.
    [[nodiscard]] std::optional<RecordFault> add(const ReadEntry& entry);
    /// Reads it first, without making a value of it that nobody keeps.
    [[nodiscard]] std::optional<RecordFault> add(std::string_view bytes);

    // As of the facts.
    [[nodiscard]] const FactFold& facts() const noexcept { return facts_; }
    [[nodiscard]] const MatchState& state() const noexcept { return facts_.state(); }
    [[nodiscard]] const std::vector<VerdictStep>& verdicts() const noexcept {
        return facts_.verdicts();
    }
    [[nodiscard]] const std::vector<Record>& records() const noexcept { return facts_.records(); }
    [[nodiscard]] const std::vector<EntryNumber>& without_effect() const noexcept {
        return facts_.without_effect();
    }
    [[nodiscard]] bool refolded() const noexcept { return facts_.refolded(); }

    [[nodiscard]] const Head& head() const noexcept { return chain_.head(); }
    /// The device that made the last entry; none before the first.
    [[nodiscard]] const Uuid& last_device() const noexcept { return last_device_; }
    [[nodiscard]] std::uint32_t epoch() const noexcept { return chain_.epoch(); }

  private:
    [[nodiscard]] RecordFault unreadable(const std::string& why) const;
    [[nodiscard]] std::optional<RecordFault> take(const EntryHeader& header, const Hash& hash,
                                                  const Record& record);

    Chain chain_;
    FactFold facts_;
    Uuid last_device_;
};

/// A whole record folded at once. On a fault the valid entries before it are folded.
struct FoldedRecord {
    MatchState state{};
    std::vector<VerdictStep> verdicts;
    std::vector<EntryNumber> without_effect;
    Head head{};
    std::optional<RecordFault> fault;
};
[[nodiscard]] FoldedRecord fold_record(const Uuid& match_id, const Rules& rules,
                                       std::span<const std::string> entries);

}  // namespace courthand::wire
