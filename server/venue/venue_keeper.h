// The thread that keeps the board and the alerts of one tournament up to date.
//
// The fold thread hands over what a match looks like now (pure work, no lock is held for long); the
// keeper's thread goes its rounds: the cards of the courts, what holds in the venue, the board, and
// last what happened to alerts into the store. Rooms of their own: `CourtCards`, `VenueWatch` and
// `AlertDesk`. Acts of people go to the desk, from their own threads, and wait for none of it.
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <thread>

#include "server/alerts/alert_store.h"
#include "server/domain/fault_shield.h"
#include "server/domain/match_observer.h"
#include "server/venue/alert_desk.h"
#include "server/venue/board.h"
#include "server/venue/court_cards.h"
#include "server/venue/heard_devices.h"
#include "server/venue/match_histories.h"
#include "server/venue/venue_watch.h"

namespace courthand::server::venue {

class VenueKeeper final : public MatchObserver {
  public:
    using Clock = VenueWatch::Clock;
    using ReadRefusals = VenueWatch::ReadRefusals;

    /// The parts outlive the keeper. `refusals`: entries the server could not take, as of now.
    VenueKeeper(TournamentId tournament, alerts::AlertStore& store, Clock clock,
                ReadRefusals refusals);
    ~VenueKeeper() override;
    VenueKeeper(const VenueKeeper&) = delete;
    VenueKeeper& operator=(const VenueKeeper&) = delete;

    /// Reads the alerts that have not ended and begins to work. Fails when the database does.
    [[nodiscard]] Status start();
    void stop();

    [[nodiscard]] Board& board() noexcept { return board_; }
    /// Courts of the venue; each has a card, also without a match.
    void set_courts(std::set<std::uint32_t> courts);

    // Acts of people, from any thread that may wait for the database.
    using Act = AlertDesk::Act;
    [[nodiscard]] Act claim(const std::string& id, const std::string& by);
    [[nodiscard]] Act acknowledge(const std::string& id, const std::string& by);
    [[nodiscard]] Act rule(const std::string& id, bool accept, const std::string& note,
                           const std::string& by);
    [[nodiscard]] Act shelve(const std::string& id, std::chrono::minutes time,
                             const std::string& note, const std::string& by);

    /// When a server of the venue last heard of a device, as far as is known here.
    [[nodiscard]] std::optional<ServerTime> last_seen(DeviceId device) const;
    [[nodiscard]] HeardDevices& heard_devices() noexcept { return heard_; }
    [[nodiscard]] std::uint32_t open_alerts(MatchId match) const {
        return desk_.open_alerts(match);
    }

    void on_match_changed(const MatchChanged& change) override;
    void on_branch_stored(const BranchStored& stored) override;
    void on_device_seen(const DeviceSeen& seen) override;
    void on_notice(const FeedItem& item) override;
    /// Every match is told anew, what is not told again is no more: the database was put back.
    void on_begun_anew() override;
    std::string_view snapshot_name() const override { return "venue"; }
    std::string snapshot_part(MatchId match) override { return histories_.part(match); }
    void on_rests(MatchId match) override { histories_.rest(match); }
    void on_rebuilt() override;

    /// The keeper's own beat; chatter guard and silence are counted in whole beats.
    static constexpr std::chrono::milliseconds beat{500};

  private:
    struct Inbox {
        std::map<MatchId, MatchView> matches;  ///< newer replaces older
        ActsHeard acts;
        std::optional<std::set<std::uint32_t>> courts;
        bool begun_anew = false;  ///< what was known of matches and alerts before is void
        bool rebuilt = false;
        bool acted = false;  ///< somebody has, here: cards have changed

        [[nodiscard]] bool has_news() const noexcept {
            return !matches.empty() || !acts.empty() || courts || rebuilt || acted;
        }
    };

    void take(const LiveMatch& match, bool afresh);
    void run();
    void work(Inbox news, const alerts::Now& now, bool beat_due);
    void take_news(Inbox news, const alerts::Now& now);
    void hear_devices();
    void renew_board(const alerts::Now& now, bool beat_due);
    [[nodiscard]] Act acted(Act act);

    TournamentId tournament_;
    Clock clock_;
    Board board_;
    HeardDevices heard_;
    AlertDesk desk_;

    mutable std::mutex inbox_mutex_;
    std::condition_variable inbox_filled_;
    Inbox inbox_;
    bool stopping_ = false;

    // Of the keeper's thread alone, once it runs.
    CourtCards cards_{board_, [this](std::uint32_t court, MatchId match) {
                          return desk_.of_court(court, match);
                      }};
    VenueWatch watch_;
    FaultShield round_{"a round of the board"};
    FaultShield taking_{"what is new of a match"};
    FaultShield observing_{"watching for alerts"};
    FaultShield showing_{"renewing the board"};
    FaultShield keeping_{"keeping alerts"};

    // Of the fold thread alone.
    MatchHistories histories_;
    bool rebuilt_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::venue
