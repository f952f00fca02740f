// Keeps the board and the book of alerts of one tournament.
//
// The fold thread hands over what a match looks like now (pure work, no lock is held for long); a
// thread of the keeper's own moves the book, keeps its life entries in the store and renews the
// board. Acts of people (claim, rule, shelve) are durable before they are answered.
//
// A ruling at the head seat is not an entry of the match record: the table is the only writer of
// its match. It is kept as a life entry of the alert and sent to the table as a notice; the table
// then records the ruling as an entry of its own. The two must not be mixed up.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <variant>
#include <vector>

#include "courthand/v1/sync.pb.h"
#include "server/alerts/alert_book.h"
#include "server/alerts/alert_store.h"
#include "server/alerts/court_watch.h"
#include "server/domain/match_observer.h"
#include "server/venue/board.h"
#include "server/venue/match_view.h"

namespace courthand::server::venue {

class VenueKeeper final : public MatchObserver {
  public:
    using Clock = std::function<ServerTime()>;
    /// Sends a ruling to the watchers of a match; may take as long as the database takes.
    using SendRuling = std::function<Status(const v1::RulingNotice&)>;

    /// The parts outlive the keeper.
    VenueKeeper(TournamentId tournament, alerts::AlertStore& store, Clock clock,
                SendRuling send_ruling);
    ~VenueKeeper() override;
    VenueKeeper(const VenueKeeper&) = delete;
    VenueKeeper& operator=(const VenueKeeper&) = delete;

    /// Reads the lives of alerts from the store and begins to work. Fails when the database does.
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

    /// When the server last heard of a device, since its start.
    [[nodiscard]] std::optional<ServerTime> last_seen(DeviceId device) const;
    [[nodiscard]] std::uint32_t open_alerts(MatchId match) const;

    void on_match_changed(const MatchChanged& change) override;
    void on_branch_stored(const BranchStored& stored) override;
    void on_device_seen(const DeviceSeen& seen) override;
    void on_begun_anew() override;
    std::string_view snapshot_name() const override { return "venue"; }
    std::string snapshot_part(MatchId match) override;
    void on_rests(MatchId match) override;
    void on_rebuilt() override;

    /// The keeper's own beat; chatter guard and silence are counted in whole beats.
    static constexpr std::chrono::milliseconds beat{500};
    /// Life entries that wait for a database that is away; more would be a fault of the program.
    static constexpr std::size_t most_waiting = 10000;
    /// More devices than any venue has.
    static constexpr std::size_t most_devices = 4096;

  private:
    struct Inbox {
        std::map<MatchId, MatchView> matches;  ///< newer replaces older
        std::map<std::uint32_t, ServerTime> seen;
        std::optional<std::set<std::uint32_t>> courts;
        bool begun_anew = false;  ///< what was known of matches before is void
        bool rebuilt = false;
    };
    using Decide = std::function<alerts::Acted(const alerts::AlertBook&, ServerTime)>;

    void take(const LiveMatch& match, bool afresh);
    const alerts::MatchHistory& followed(const LiveMatch& match, bool afresh);
    alerts::MatchHistory resting_history(MatchId match) const;
    void run();
    void work(Inbox news, ServerTime now);
    void observe_match(MatchId id, MatchView view, ServerTime now);
    void presume_silence();
    void renew_board(ServerTime now);
    void put_card(std::uint32_t court, const MatchView* view, ServerTime now);
    void wait_to_keep(std::vector<alerts::LifeEntry> entries);
    /// Hands waiting life entries to the store, in order.
    [[nodiscard]] Status keep_waiting();
    void send_waiting_rulings();
    [[nodiscard]] Act act(const std::string& id, const Decide& decide);

    TournamentId tournament_;
    alerts::AlertStore& store_;
    Clock clock_;
    SendRuling send_ruling_;
    Board board_;

    mutable std::mutex inbox_mutex_;
    std::condition_variable inbox_filled_;
    Inbox inbox_;
    std::map<DeviceId, ServerTime> devices_seen_;
    bool stopping_ = false;

    mutable std::mutex mutex_;  ///< everything below
    std::map<MatchId, MatchView> matches_;
    alerts::AlertBook book_;
    alerts::CourtWatch watch_;
    std::set<std::uint32_t> courts_;
    std::set<std::uint32_t> courts_shown_;
    std::deque<alerts::LifeEntry> waiting_;         ///< raised, not kept yet
    std::deque<v1::RulingNotice> waiting_rulings_;  ///< kept, not sent yet
    ServerTime started_{};
    bool ready_ = false;  ///< the records have been folded; alerts may be raised

    // Of the fold thread alone.
    std::map<MatchId, alerts::MatchHistory> histories_;
    std::map<MatchId, std::string> resting_;  ///< their histories as `history_part` has them
    std::thread thread_;
};

}  // namespace courthand::server::venue
