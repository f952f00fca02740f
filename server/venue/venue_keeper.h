// Keeps the board and the book of alerts of one tournament.
//
// The fold thread hands over what a match looks like now (pure work, no lock is held for long); a
// thread of the keeper's own moves the book, renews the board and keeps life entries in the store.
// Acts of people (claim, rule, shelve) are durable before they are answered.
//
// That thread and the acts take turns: whoever writes may wait for the database meanwhile. Readers
// never wait for a writer.
//
// A ruling at the head seat is not an entry of the match record: the table is the only writer of
// its match. It is kept as a life entry of the alert, and in the same transaction as a notice in
// the feed of the match; the table then records the ruling as an entry of its own. The two must not
// be mixed up.
#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <unordered_map>
#include <variant>
#include <vector>

#include "server/alerts/alert_store.h"
#include "server/alerts/court_watch.h"
#include "server/domain/fault_shield.h"
#include "server/domain/match_observer.h"
#include "server/domain/refusals.h"
#include "server/venue/board.h"
#include "server/venue/heard_devices.h"
#include "server/venue/kept_book.h"
#include "server/venue/match_shelf.h"

namespace courthand::server::venue {

class VenueKeeper final : public MatchObserver {
  public:
    using Clock = std::function<alerts::Now()>;
    using ReadRefusals = std::function<std::vector<Refusals::Refusal>()>;

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
    using Act = std::variant<v1::Alert, alerts::ActRefusal, Status>;
    [[nodiscard]] Act claim(const std::string& id, const std::string& by);
    [[nodiscard]] Act acknowledge(const std::string& id, const std::string& by);
    [[nodiscard]] Act rule(const std::string& id, bool accept, const std::string& note,
                           const std::string& by);
    [[nodiscard]] Act shelve(const std::string& id, std::chrono::minutes time,
                             const std::string& note, const std::string& by);

    /// When a server of the venue last heard of a device, as far as is known here.
    [[nodiscard]] std::optional<ServerTime> last_seen(DeviceId device) const;
    [[nodiscard]] HeardDevices& heard_devices() noexcept { return heard_; }
    [[nodiscard]] std::uint32_t open_alerts(MatchId match) const;

    void on_match_changed(const MatchChanged& change) override;
    void on_branch_stored(const BranchStored& stored) override;
    void on_device_seen(const DeviceSeen& seen) override;
    void on_notice(const FeedItem& item) override;
    /// Every match is told anew, what is not told again is no more: the database was put back.
    void on_begun_anew() override;
    std::string_view snapshot_name() const override { return "venue"; }
    std::string snapshot_part(MatchId match) override;
    void on_rests(MatchId match) override;
    void on_rebuilt() override;

    /// The keeper's own beat; chatter guard and silence are counted in whole beats.
    static constexpr std::chrono::milliseconds beat{500};
    /// After a write that was waited for in vain: acts of people, who wait for the same writers,
    /// come between.
    static constexpr std::chrono::seconds keeps_again_after{5};

  private:
    struct Inbox {
        std::map<MatchId, MatchView> matches;            ///< newer replaces older
        std::map<alerts::AlertId, std::uint32_t> moved;  ///< acted upon, at some server
        std::optional<std::set<std::uint32_t>> courts;
        bool begun_anew = false;  ///< what was known of matches and alerts before is void
        bool rebuilt = false;
    };
    /// What the card of a court said last of its device.
    struct Seen {
        alerts::Now shown{};
        bool staffed = false;
    };
    using Decide = std::function<alerts::Acted(const alerts::AlertBook&, const alerts::Now&)>;

    void take(const LiveMatch& match, bool afresh);
    const alerts::MatchHistory& followed(const LiveMatch& match, bool afresh);
    alerts::MatchHistory resting_history(MatchId match) const;
    void run();

    // The writers: these need `writers_`.
    void work(Inbox news, const alerts::Now& now, bool beat_due);
    void hear_devices();
    void take_news(Inbox news, const alerts::Now& now);
    void observe(const std::map<alerts::AlertId, std::uint32_t>& moved, const alerts::Now& now,
                 bool beat_due);
    [[nodiscard]] bool looked_up(const std::vector<alerts::AlertId>& unknown,
                                 const alerts::Now& now);
    [[nodiscard]] bool speaks_for(std::uint32_t court, DeviceId device) const;
    void take_courts(std::set<std::uint32_t> courts);
    void take_view(MatchView view, const alerts::Now& now);
    void forget_matches();
    [[nodiscard]] bool begin_anew(const alerts::Now& now);
    void begin();
    void watch_changed_courts();
    void observe_matches(const alerts::Now& now);
    void observe_match(MatchId id, const alerts::Now& now);
    void keep(const alerts::Now& now);
    void observe_courts(const alerts::Now& now);
    void observe_take_overs(const alerts::Now& now);
    void observe_refusals(const alerts::Now& now);
    void hear_of_acts(std::map<alerts::AlertId, std::uint32_t> moved, const alerts::Now& now);
    void observe_room(const alerts::Now& now);
    [[nodiscard]] Act act(const std::string& id, const Decide& decide);

    void renew_board(const alerts::Now& now);
    void put_card(std::uint32_t court, const alerts::Now& now);
    void find_unstaffed(const alerts::Now& now);
    void show_alerts(const std::set<alerts::AlertId>& changed);
    void count_open(const std::set<MatchId>& changed);
    void close_matches(const std::set<std::uint32_t>& courts);
    void close_match(MatchId id);

    TournamentId tournament_;
    Clock clock_;
    ReadRefusals read_refusals_;
    Board board_;
    HeardDevices heard_;

    mutable std::mutex inbox_mutex_;
    std::condition_variable inbox_filled_;
    Inbox inbox_;
    bool stopping_ = false;

    mutable std::mutex counts_mutex_;
    std::unordered_map<MatchId, std::uint32_t> open_of_match_;

    std::mutex writers_;  ///< everything below
    KeptBook alerts_;
    MatchShelf matches_;
    alerts::CourtWatch watch_;
    std::set<std::uint32_t> courts_;
    std::set<std::uint32_t> changed_courts_;  ///< their cards are to be renewed
    std::map<std::uint32_t, Seen> seen_;
    std::set<MatchId> to_observe_;                     ///< changed since the book was told
    std::map<alerts::AlertId, std::uint32_t> unread_;  ///< acts the database did not tell of yet
    std::set<MatchId> asking_;                         ///< a device asks to take them over
    std::set<MatchId> to_close_;  ///< over, or something about their alerts has changed
    bool asked_changed_ = false;
    std::vector<Refusals::Refusal> refusals_;  ///< as they were told last
    alerts::Now started_{};
    bool anew_due_ = false;  ///< the store is to be read again, and matches wait for it
    bool rebuilt_told_ = false;
    bool ready_ = false;       ///< the records have been folded; alerts may be raised
    bool store_away_ = false;  ///< it has not answered in this round
    alerts::Steady keeps_again_{};
    FaultShield round_{"a round of the board"};
    FaultShield taking_{"what is new of a match"};
    FaultShield observing_{"watching for alerts"};
    FaultShield hearing_{"what another server did about an alert"};
    FaultShield observing_match_{"the alerts of a match"};
    FaultShield observing_take_overs_{"wishes to take over"};
    FaultShield observing_courts_{"courts that are not seen"};
    FaultShield observing_refusals_{"refused entries"};
    FaultShield observing_room_{"the room for alerts"};
    FaultShield showing_{"renewing the board"};
    FaultShield keeping_{"keeping alerts"};

    // Of the fold thread alone.
    std::map<MatchId, alerts::MatchHistory> histories_;
    std::map<MatchId, std::string> resting_;  ///< their histories as `history_part` has them
    bool rebuilt_ = false;
    std::thread thread_;
};

}  // namespace courthand::server::venue
