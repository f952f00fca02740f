// What the card of each court shows: the match that is on it, how its alerts stand, and when its
// table was last heard of. Not thread-safe; waits for nothing.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "server/alerts/alert_book.h"
#include "server/alerts/court_watch.h"
#include "server/venue/board.h"
#include "server/venue/heard_devices.h"
#include "server/venue/match_shelf.h"

namespace courthand::server::venue {

class CourtCards {
  public:
    /// `match`: the one whose card it is; nil: there is none on the court.
    using AlertsOf = std::function<alerts::CourtAlerts(std::uint32_t court, MatchId match)>;

    /// `board` outlives the cards. `alerts_of`: as they stand when a card is put.
    CourtCards(Board& board, AlertsOf alerts_of)
        : board_{board}, alerts_of_{std::move(alerts_of)} {}

    /// Courts of the venue; each has a card, also without a match.
    void set_courts(std::set<std::uint32_t> courts);
    /// Takes a match in, or in the place of what was known of it. True: its record has grown.
    bool put(MatchView view);
    void remove(MatchId match) { matches_.remove(match); }
    void forget_matches();
    /// From a device that speaks for the court: a spare tablet says nothing about the table that
    /// writes its match.
    void heard(const HeardDevices::Heard& device);
    /// Entries of the match on this court have arrived.
    void grown(std::uint32_t court, const alerts::Now& now) { watch_.heard(court, now); }
    /// At the start: it was not seen when the server stopped, and stays so until it is heard of.
    void presume_silent(std::uint32_t court) { watch_.presume_silent(court); }
    /// How its alerts stand has changed, or whatever else its card shows.
    void changed(const std::set<std::uint32_t>& courts);
    /// Tells the watch over the courts which match each of the changed ones has now.
    void watch_changed();
    /// A table that has not been heard of for a while, or is heard of again, changes its card.
    void find_unstaffed(const alerts::Now& now);
    /// Puts the cards of changed courts on the board, whose listeners are not told; answers which.
    std::set<std::uint32_t> renew(const alerts::Now& now);

    [[nodiscard]] MatchView* find(MatchId match) { return matches_.find(match); }
    [[nodiscard]] const MatchView* find(MatchId match) const { return matches_.find(match); }
    [[nodiscard]] const MatchView* current(std::uint32_t court) const {
        return matches_.current(court);
    }
    /// Courts with matches, and these.
    [[nodiscard]] const std::map<std::uint32_t, std::set<MatchId>>& matches() const noexcept {
        return matches_.courts();
    }
    /// What speaks against courts that are silent. `started`: nobody is silent before that.
    [[nodiscard]] std::vector<alerts::Condition> silent(const alerts::Now& now,
                                                        const alerts::Now& started) const;
    /// One condition for each court on which more than one match is being played.
    [[nodiscard]] std::vector<alerts::Condition> crowded() const;

    /// A card's "last seen" moves in steps, so that a quiet court does not renew its card every
    /// second.
    static constexpr std::chrono::seconds seen_step{10};
    /// Devices speak at least this often when they are connected.
    static constexpr std::chrono::seconds staffed_within{30};

  private:
    /// What the card of a court said last of its device.
    struct Seen {
        alerts::Now shown{};
        bool staffed = false;
    };
    [[nodiscard]] bool speaks_for(std::uint32_t court, DeviceId device) const;
    void put_card(std::uint32_t court, const alerts::Now& now);
    void put_presence(std::uint32_t court, const alerts::Now& now, v1::CourtCard& card);

    Board& board_;
    AlertsOf alerts_of_;
    MatchShelf matches_;
    alerts::CourtWatch watch_;
    std::set<std::uint32_t> courts_;
    std::set<std::uint32_t> changed_;  ///< their cards are to be renewed
    std::map<std::uint32_t, Seen> seen_;
};

}  // namespace courthand::server::venue
