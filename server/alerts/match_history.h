// What has happened in one match that alerts need to know: verdicts over their whole life,
// re-designations, the last replacements. Follows the record entry by entry, so that a long match
// is not folded from its start with each entry. Not thread-safe.
#pragma once

#include <map>
#include <tuple>
#include <vector>

#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/verdict.h"
#include "server/alerts/condition.h"
#include "server/domain/match_observer.h"

namespace courthand::server::alerts {

/// A verdict is the same one as long as entry, reason and team are.
using VerdictKey = std::tuple<EntryNumber, Reason, Team>;
[[nodiscard]] VerdictKey key_of(const Verdict& verdict);

/// One verdict over the life of the match.
struct Course {
    Verdict first_open;  ///< as it was when it began to count
    Score score{};       ///< of the set at that moment
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
    /// Takes the entries that are new since the last call. After a correction, or when the rule
    /// profile has changed, a new history must be used.
    void follow(const LiveMatch& match);

    [[nodiscard]] const std::map<VerdictKey, Course>& verdicts() const noexcept {
        return verdicts_;
    }
    /// The team's six before the entry that raised the verdict, as told when it was raised: when
    /// the fault begins to count, the six have long been the new ones.
    [[nodiscard]] const Six& before(const VerdictKey& key) const { return before_.at(key); }
    [[nodiscard]] const std::vector<Redesignated>& redesignations() const noexcept {
        return redesignations_;
    }
    /// Of the present set, oldest first.
    [[nodiscard]] const PerTeam<std::vector<ReplacementMade>>& replacements() const noexcept {
        return replacements_;
    }

  private:
    void take(const Rules& rules, const Entry& entry);
    void note(const Entry& entry);
    void note(const Verdict& verdict);

    std::size_t taken_ = 0;  ///< entries of the record, from the first
    MatchState state_{};
    std::map<VerdictKey, Six> before_;
    std::map<VerdictKey, Course> verdicts_;
    std::vector<Redesignated> redesignations_;
    PerTeam<std::vector<ReplacementMade>> replacements_;
};

/// The verdict is for the board: it counts, or its kind is told while it is armed.
[[nodiscard]] bool shown_on_the_board(const Verdict& verdict);

}  // namespace courthand::server::alerts
