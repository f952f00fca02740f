// What holds in the venue, told to the desk of alerts round by round: in the matches, on the
// courts, of wishes to take over and of refused entries. What the desk has forgotten is read back
// first, from a store that may be away. Not thread-safe; waits for the store in `observe` and
// `keep` only.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "server/domain/fault_shield.h"
#include "server/domain/refusals.h"
#include "server/venue/alert_desk.h"
#include "server/venue/court_cards.h"
#include "server/venue/heard_devices.h"

namespace courthand::server::venue {

/// Acts upon alerts, at whatever server, by the number of the step each came to.
using ActsHeard = std::map<alerts::AlertId, std::uint32_t>;

class VenueWatch {
  public:
    using Clock = std::function<alerts::Now()>;
    using ReadRefusals = std::function<std::vector<Refusals::Refusal>()>;

    /// After a write that was waited for in vain, so that the next rounds need not wait for it.
    static constexpr std::chrono::seconds keeps_again_after{5};

    struct Parts {
        AlertDesk& desk;
        CourtCards& cards;
        const HeardDevices& heard;
    };
    VenueWatch(Parts parts, ReadRefusals refusals)
        : parts_{parts}, read_refusals_{std::move(refusals)} {}

    /// The server begins to listen: nobody is silent before that.
    void start(const alerts::Now& now) { started_ = now; }
    [[nodiscard]] const alerts::Now& started() const noexcept { return started_; }

    void take(MatchView view, const alerts::Now& now);
    /// The database was put back: what was raised since may be gone from it.
    void forget_matches();
    /// Every match has been told. From the next round on alerts may be raised.
    void all_told() { all_told_ = true; }

    /// One round. `beat_due`: also what time alone brings about.
    void observe(const ActsHeard& acts, const alerts::Now& now, bool beat_due);
    /// Keeps what happened to alerts, when it is time.
    void keep(const Clock& clock);
    /// Matches that are over leave memory when nothing of them is left to tell: of these and of
    /// those courts.
    void close_matches(const std::set<MatchId>& matches, const std::set<std::uint32_t>& courts);

  private:
    [[nodiscard]] bool begin_anew(const alerts::Now& now);
    void begin();
    [[nodiscard]] bool looked_up(const std::vector<alerts::AlertId>& unknown,
                                 const alerts::Now& now);
    void hear_of_acts(const ActsHeard& acts, const alerts::Now& now);
    void observe_matches(const alerts::Now& now);
    void observe_match(MatchId id, const alerts::Now& now);
    void observe_take_overs(const alerts::Now& now);
    void observe_courts(const alerts::Now& now);
    void observe_crowded(const alerts::Now& now);
    void observe_refusals(const alerts::Now& now);
    void observe_room(const alerts::Now& now);
    void close_match(MatchId id);

    Parts parts_;
    ReadRefusals read_refusals_;
    alerts::Now started_{};
    std::set<MatchId> to_observe_;  ///< changed since the desk was told
    std::set<MatchId> to_close_;    ///< over
    std::set<MatchId> asking_;      ///< a device asks to take them over
    bool asked_changed_ = false;
    ActsHeard unread_;                         ///< acts the database did not tell of yet
    std::vector<Refusals::Refusal> refusals_;  ///< as they were told last
    bool anew_due_ = false;    ///< the store is to be read again, and matches wait for it
    bool all_told_ = false;    ///< the records have been folded
    bool ready_ = false;       ///< and alerts may be raised
    bool store_away_ = false;  ///< it has not answered in this round
    alerts::Steady keeps_again_{};

    FaultShield hearing_{"what another server did about an alert"};
    FaultShield observing_match_{"the alerts of a match"};
    FaultShield observing_take_overs_{"wishes to take over"};
    FaultShield observing_courts_{"courts that are not seen"};
    FaultShield observing_crowded_{"courts with more than one match"};
    FaultShield observing_refusals_{"refused entries"};
    FaultShield observing_room_{"the room for alerts"};
};

}  // namespace courthand::server::venue
