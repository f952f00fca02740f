// Writes an event file line by line. Pure: the same records give the same bytes, whenever and
// wherever they are written.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "courthand/event/state.h"
#include "event_file/lines.h"
#include "event_file/running_hash.h"

namespace courthand::event_file {

/// Facts first, then each match followed by the entries of its record, then the end.
class EventWriter {
  public:
    /// Gets each piece of the file in its order.
    using Sink = std::function<void(std::string_view)>;
    EventWriter(Sink sink, const wire::Uuid& tournament, std::string_view name);

    /// Facts in their order. One that this program cannot read counts for nothing in the summary.
    void fact(std::string bytes, const std::optional<Beside>& words);
    void match(const v1::Match& plan);
    /// Of the match before.
    void entry(std::uint32_t number, std::string bytes, std::string signature);
    /// Beside the record of the match before, behind its entries. `branch`: its number at the
    /// match.
    void branch_entry(std::uint32_t branch, std::uint32_t number, std::string bytes,
                      std::string signature);
    /// What the event came to, the head of each record, and the end.
    void finish();

    /// Of the record of the tournament.
    [[nodiscard]] const wire::Head& head() const noexcept { return heads_.front().head; }
    /// What the facts amount to, once it is finished.
    [[nodiscard]] const event::TournamentState& state() const noexcept { return state_; }

  private:
    void write(const Line& line);
    /// The end of the last record tells what lies beside it.
    void end_branches();

    Sink sink_;
    RunningHash hash_;
    std::uint32_t lines_ = 0;
    std::vector<event::Fact> facts_;
    event::TournamentState state_;
    std::vector<RecordLine> heads_;   ///< the tournament's first
    std::vector<wire::Hash> beside_;  ///< entries beside the record of the last match
};

}  // namespace courthand::event_file
