// What has happened in one match that alerts need to know: verdicts over their whole life,
// re-designations, the last replacements. Follows what the fold has made of the record entry by
// entry; judges nothing itself. Not thread-safe.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "courthand/match/state.h"
#include "courthand/rules/verdict.h"
#include "server/alerts/condition.h"
#include "server/domain/match_observer.h"

namespace courthand::server::alerts {

/// A verdict is the same one as long as entry, reason and team are.
using VerdictKey = std::tuple<EntryNumber, Reason, Team>;
[[nodiscard]] VerdictKey key_of(const Verdict& verdict);

/// The last replacements of a team at some moment of a set. It is kept as it lies in memory.
struct LastReplacements {
    std::array<ReplacementMade, evidence_replacements> made{};  ///< oldest first
    std::size_t count = 0;

    void add(const ReplacementMade& one);
    [[nodiscard]] std::span<const ReplacementMade> all() const { return {made.data(), count}; }
};

/// One verdict over the life of the match.
struct Course {
    Verdict first_open;               ///< as it was when it began to count
    Score score{};                    ///< of the set at that moment
    LastReplacements replacements{};  ///< of its team up to that moment
    Outcome outcome = Outcome::stands;
};

struct Redesignated {
    EntryNumber entry = 0;
    Redesignation fact;
    std::uint8_t set = 0;
    Score score{};
};

class MatchHistory {
  public:
    /// What has happened, without what is needed to follow the match further.
    struct Past {
        std::map<VerdictKey, Course> verdicts;
        std::map<VerdictKey, Six> before;
        std::map<EntryNumber, std::shared_ptr<const std::string>> raw;  ///< what raised verdicts
        std::vector<Redesignated> redesignations;
        PerTeam<LastReplacements> replacements;  ///< in the present set
    };
    MatchHistory() = default;
    /// Of a match that rests.
    explicit MatchHistory(Past past) : past_{std::move(past)} {}

    /// Takes the entries that are new since the last call. After a correction, or when the rule
    /// profile has changed, a new history must be used.
    void follow(const LiveMatch& match);

    [[nodiscard]] const std::map<VerdictKey, Course>& verdicts() const noexcept {
        return past_.verdicts;
    }
    /// The team's six before the entry that raised the verdict, as told when it was raised: when
    /// the fault begins to count, the six have long been the new ones.
    [[nodiscard]] const Six& before(const VerdictKey& key) const { return past_.before.at(key); }
    /// The bytes of an entry that raised a verdict; empty when they are not known.
    [[nodiscard]] std::string raw(EntryNumber entry) const;
    [[nodiscard]] const std::vector<Redesignated>& redesignations() const noexcept {
        return past_.redesignations;
    }
    /// Of the present set.
    [[nodiscard]] const PerTeam<LastReplacements>& replacements() const noexcept {
        return past_.replacements;
    }

  private:
    void take(const LiveMatch& match, const Entry& entry);
    void note(const Entry& entry, const wire::FactStep& before);
    void note(const Verdict& verdict, const Score& score, const MatchRecord& record);

    std::size_t taken_ = 0;           ///< entries of the record, from the first
    std::size_t steps_taken_ = 0;     ///< of their facts that count
    std::size_t verdicts_taken_ = 0;  ///< of what those brought
    Past past_;
};

/// The verdict is for the board: it counts, or its kind is told while it is armed.
[[nodiscard]] bool shown_on_the_board(const Verdict& verdict);

}  // namespace courthand::server::alerts
