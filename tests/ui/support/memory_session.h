// A match session without a journal: the record is a list in memory, folded by the real core.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "courthand/match/entry.h"
#include "session/match_session.h"

namespace courthand::client::test {

class MemorySession final : public MatchSession {
  public:
    MemorySession(const std::string& profile, MatchSheet sheet);

    using MatchSession::record;
    RecordResult record(std::span<const Record> what, std::string_view text) override;
    [[nodiscard]] std::span<const Record> written() const override { return records_; }
    [[nodiscard]] const MatchState& state() const override { return state_; }
    [[nodiscard]] const Rules& rules() const override { return rules_; }
    [[nodiscard]] const MatchSheet& sheet() const override { return sheet_; }
    [[nodiscard]] std::vector<Verdict> standing() const override;
    [[nodiscard]] SyncStatus sync_status() const override { return sync; }
    [[nodiscard]] Writing writing() const override { return written_by; }
    void ask_to_go_on() override {
        ++asked;
        written_by.wish = Writing::Wish::asked;
    }

    /// The desk has sent its team lists, or others than before.
    void desk_sends(const PerTeam<std::vector<MatchSheet::Player>>& lists) {
        sheet_.players = lists;
    }
    /// The facts that count, oldest first.
    [[nodiscard]] std::vector<Fact> facts() const;
    /// The words beside the last record.
    [[nodiscard]] const std::string& last_text() const { return last_text_; }

    /// While set, nothing can be written and every record fails with this sentence.
    std::string disk_error;
    SyncStatus sync;
    Writing written_by;
    int asked = 0;

  private:
    void refold();
    void record(const Record& what, RecordResult& result);

    Rules rules_;
    MatchSheet sheet_;
    std::vector<Record> records_;
    MatchState state_{};
    std::string last_text_;
};

/// Harbour Lights against Mill Lane on court 3, opened and with both team lists, before the toss.
[[nodiscard]] MatchSheet harbour_cup_sheet(const std::string& profile);
void open_match(MatchSession& session);
/// Toss, set 1, both line-ups with liberos 21 22 and 41, both checked: ready for the first serve.
void ready_to_serve(MatchSession& session);
/// The same from the toss on, for a match that has its team lists.
void ready_from_toss(MatchSession& session);

}  // namespace courthand::client::test
