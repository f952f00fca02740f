// What the rules say about what happened: reason, evidence and the remedy they prescribe.
#pragma once

#include <array>
#include <cassert>
#include <cstddef>
#include <cstdint>

#include "courthand/match/entry.h"
#include "courthand/match/format.h"
#include "courthand/match/position.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"

namespace courthand {

/// The life of a verdict. Armed: the fault stands, but the moment from which it counts (normally
/// the service hit) has not come; the team may still put it right. Open: it counts. The others end
/// it: cleared by the team in time, or ruled by a referee.
enum class Phase : std::uint8_t { armed, open, cleared, accepted, overruled };

/// The words of a remedy, as scripts write them.
enum class Action : std::uint8_t {
    none,
    point_and_service,  ///< a point and the service to `team`
    undo,               ///< the act is taken back, no sanction
    refuse,             ///< the request is not granted, nothing is written
    correct,            ///< put right at once, no consequence
    inform,             ///< tell the captain of `team`
    delay_warning,
    delay_penalty,  ///< delay sanction of `team`: a point and the service to its opponent
    record_only,    ///< written on the sheet, no other consequence
    incomplete,     ///< `team` cannot go on for the set (or match)
    ask,            ///< a person must be asked
};

struct Remedy {
    Action action = Action::none;
    Team team{};              ///< who gets the point, or whom the sanction addresses
    std::uint8_t cancel = 0;  ///< points taken from the team at fault
    bool restore = false;     ///< the team's places go back to those before the fault
    Score score{};            ///< score of the set if the remedy is applied now
    Team serves{};            ///< who serves then
    friend constexpr bool operator==(const Remedy&, const Remedy&) = default;
};

struct Verdict {
    Reason reason{};
    Team team{};  ///< the team at fault or addressed
    Phase phase = Phase::armed;
    std::array<Jersey, 2> players{};  ///< whom it concerns: who came in or served; who went out
    EntryNumber entry = 0;            ///< the entry that raised it
    std::uint16_t rally = 0;          ///< rally of the set in play or next when raised, from 1
    std::uint8_t set = 0;
    Six before{};  ///< the team's six by position before the entry that raised it
    Six after{};   ///< and after it
    Remedy remedy{};
    friend constexpr bool operator==(const Verdict&, const Verdict&) = default;
};

/// Verdicts of one entry. One entry can raise at most a handful: a line-up with every possible
/// fault makes ten.
class VerdictList {
  public:
    static constexpr std::size_t capacity = 24;

    void add(const Verdict& verdict) noexcept {
        if (count_ < capacity)
            items_[count_++] = verdict;
        else
            overflow_ = true;
    }
    void clear() noexcept {
        count_ = 0;
        overflow_ = false;
    }
    [[nodiscard]] bool empty() const noexcept { return count_ == 0; }
    [[nodiscard]] std::size_t size() const noexcept { return count_; }
    /// True when more verdicts arose than are listed.
    [[nodiscard]] bool overflow() const noexcept { return overflow_; }
    [[nodiscard]] const Verdict* begin() const noexcept { return items_.data(); }
    [[nodiscard]] const Verdict* end() const noexcept { return items_.data() + count_; }
    [[nodiscard]] const Verdict& operator[](std::size_t i) const noexcept {
        assert(i < count_);
        return items_[i];
    }

  private:
    std::array<Verdict, capacity> items_;
    std::size_t count_ = 0;
    bool overflow_ = false;
};

}  // namespace courthand
