// What the table writes: facts, several to one touch; undo of a touch by the numbers of its
// entries; corrections in the middle; and the questions about faults found late.
//
// Undo never takes back what did not come from this seat's touches while it is known where an entry
// came from; a ruling, which may be the head official's, is passed over in any case.
#pragma once

#include <QString>
#include <optional>
#include <span>
#include <vector>

#include "courthand/history/change.h"
#include "courthand/history/explanation.h"
#include "courthand/history/late_fault.h"
#include "courthand/match/entry.h"
#include "courthand/match/state.h"
#include "session/match_session.h"
#include "wording.h"

namespace courthand::client {

/// What came of one touch.
struct Outcome {
    bool saved = true;        ///< all of it is in the record
    bool needs_look = false;  ///< something was raised or stands that did not before
    QString words;            ///< of the last entry written; empty when none was
};

/// One entry as this seat wrote it.
struct Written {
    EntryNumber number = 0;
    Record record{};
};

/// What one touch wrote, and one undo takes back.
struct Act {
    std::vector<Written> entries;
    QString words;
};

class Recorder {
  public:
    /// Undo goes back further than a set can be long; what is older goes entry by entry.
    static constexpr std::size_t most_acts = 2000;
    /// A remark or a protest is a short text; the journal holds no essays.
    static constexpr qsizetype longest_text = 500;

    /// Both outlive the recorder.
    Recorder(MatchSession& session, const Wording& wording)
        : session_{session}, wording_{wording} {}

    /// Records the facts as one act.
    Outcome perform(const std::vector<Fact>& facts, const QString& text = {});

    // ---- corrections in the middle of the record ------------------------------------------------
    /// `fact` was forgotten: it counts right after entry `after`.
    Outcome insert(EntryNumber after, const Fact& fact);
    /// Entry `target` should have said `fact`.
    Outcome amend(EntryNumber target, const Fact& fact);
    Outcome strike(EntryNumber target);
    /// Several corrections as one act.
    Outcome correct(const std::vector<Correction>& corrections, const QString& words);
    /// What a correction would change in the verdicts; nothing is written.
    [[nodiscard]] std::vector<VerdictChange> changes_by(const Correction& correction) const;
    /// The state after a correction; nothing is written.
    [[nodiscard]] MatchState state_after(std::span<const Correction> corrections) const;

    // ---- undo -----------------------------------------------------------------------------------
    /// What `undo` would take back; nothing when there is nothing.
    [[nodiscard]] std::optional<Act> next_undo() const;
    /// The state after `undo` of that act.
    [[nodiscard]] MatchState state_without(const Act& act) const;
    /// Strikes every entry of that act, or none of them when that cannot be saved.
    Outcome undo();

    // ---- faults found late ----------------------------------------------------------------------
    /// Why the server of `team` seems wrong, best explanation first, as of entry `found_at`.
    [[nodiscard]] std::vector<Explanation> causes_of_wrong_server(Team team,
                                                                  EntryNumber found_at) const;
    /// Every verdict that stands after entry `found_at`, with the points made since.
    [[nodiscard]] std::vector<LateFault> late_faults(EntryNumber found_at) const;
    /// The entries that count, in the order in which they count.
    [[nodiscard]] std::vector<Entry> entries() const;
    /// Number of the last entry that counts; 0 when none does.
    [[nodiscard]] EntryNumber last_entry() const;

    /// Why the last touch could not be saved, as a sentence; empty when it was.
    [[nodiscard]] const QString& problem() const noexcept { return problem_; }

  private:
    /// Every entry of the act is in the record as written, and not struck.
    [[nodiscard]] bool stands(const Act& act, const std::vector<bool>& struck) const;
    void keep(Act act);
    /// Writes all of it as one act, or notes why nothing was.
    Outcome write(const std::vector<Record>& what, const std::string& text);

    MatchSession& session_;
    const Wording& wording_;
    std::vector<Act> acts_;
    QString problem_;
};

}  // namespace courthand::client
