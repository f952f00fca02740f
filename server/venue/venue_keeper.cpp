#include "server/venue/venue_keeper.h"

#include <algorithm>
#include <utility>

#include "server/venue/ruling_notice.h"

namespace courthand::server::venue {

using alerts::Now;

VenueKeeper::VenueKeeper(TournamentId tournament, alerts::AlertStore& store, Clock clock,
                         ReadRefusals refusals)
    : tournament_{tournament},
      clock_{std::move(clock)},
      desk_{store, board_},
      watch_{{desk_, cards_, heard_}, std::move(refusals)} {}

VenueKeeper::~VenueKeeper() {
    stop();
}

Status VenueKeeper::start() {
    watch_.start(clock_());
    if (Status status = desk_.load(watch_.started()); !status.ok()) return status;
    thread_ = std::thread{[this] { run(); }};
    return Status::fine();
}

void VenueKeeper::stop() {
    {
        const std::scoped_lock lock{inbox_mutex_};
        stopping_ = true;
    }
    inbox_filled_.notify_all();
    if (thread_.joinable()) thread_.join();
}

void VenueKeeper::set_courts(std::set<std::uint32_t> courts) {
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.courts = std::move(courts);
    inbox_filled_.notify_all();
}

void VenueKeeper::take(const LiveMatch& match, bool afresh) {
    if (match.key.tournament != tournament_) return;
    MatchView view = histories_.view(match, afresh);
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.matches[match.key.match] = std::move(view);
    inbox_filled_.notify_all();
}

void VenueKeeper::on_match_changed(const MatchChanged& change) {
    if (change.cause == MatchChanged::Cause::rebuilt && !change.match.record)
        histories_.restore(change.match.key.match, change.snapshot_part);
    // Plan and writer change nothing of what the record says.
    take(change.match, change.cause == MatchChanged::Cause::corrected ||
                           change.cause == MatchChanged::Cause::rebuilt);
}

void VenueKeeper::on_branch_stored(const BranchStored& stored) {
    take(stored.match, false);
}

void VenueKeeper::on_device_seen(const DeviceSeen& seen) {
    if (seen.tournament == tournament_) heard_.heard({seen.device, seen.court, clock_()});
}

void VenueKeeper::on_notice(const FeedItem& item) {
    // What was acted upon before the start was read at the start.
    if (!rebuilt_) return;
    auto moved = alert_moved(item);
    if (!moved) return;
    const std::scoped_lock lock{inbox_mutex_};
    std::uint32_t& number = inbox_.acts[std::move(moved->id)];
    number = std::max(number, moved->number);
    inbox_filled_.notify_all();
}

void VenueKeeper::on_begun_anew() {
    histories_.clear();
    rebuilt_ = false;
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.matches.clear();
    inbox_.acts.clear();
    inbox_.rebuilt = false;
    inbox_.begun_anew = true;
}

void VenueKeeper::on_rebuilt() {
    rebuilt_ = true;
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.rebuilt = true;
    inbox_filled_.notify_all();
}

void VenueKeeper::run() {
    auto next_beat = std::chrono::steady_clock::now();
    while (true) {
        Inbox news;
        {
            std::unique_lock lock{inbox_mutex_};
            inbox_filled_.wait_until(lock, next_beat,
                                     [&] { return stopping_ || inbox_.has_news(); });
            if (stopping_) return;
            news = std::exchange(inbox_, Inbox{});
        }
        const auto time = std::chrono::steady_clock::now();
        const bool beat_due = time >= next_beat;
        if (beat_due) next_beat = time + beat;
        (void)round_.run([&] { work(std::move(news), clock_(), beat_due); });
    }
}

// Each part by itself: what one throws costs that part and this round.
void VenueKeeper::work(Inbox news, const Now& now, bool beat_due) {
    const ActsHeard acts = std::exchange(news.acts, {});
    take_news(std::move(news), now);
    // The board first: people must see what the matches are now, also while the database is away or
    // slow, and nothing that may wait for it comes before.
    (void)showing_.run([&] { renew_board(now, beat_due); });
    (void)observing_.run([&] { watch_.observe(acts, now, beat_due); });
    (void)showing_.run([&] { renew_board(now, beat_due); });
    (void)keeping_.run([&] { watch_.keep(clock_); });
}

void VenueKeeper::take_news(Inbox news, const Now& now) {
    if (news.courts) cards_.set_courts(*std::move(news.courts));
    if (news.begun_anew) watch_.forget_matches();
    for (auto& match : news.matches)
        (void)taking_.run([&] { watch_.take(std::move(match.second), now); });
    (void)taking_.run([&] {
        hear_devices();
        cards_.watch_changed();
    });
    if (news.rebuilt) watch_.all_told();
}

// What another server heard before this one began to listen says nothing: a court that was not seen
// when the server stopped stays so until it is heard of again.
void VenueKeeper::hear_devices() {
    for (const HeardDevices::Heard& heard : heard_.take_news())
        if (heard.at.steady >= watch_.started().steady) cards_.heard(heard);
}

void VenueKeeper::renew_board(const Now& now, bool beat_due) {
    if (beat_due) cards_.find_unstaffed(now);
    desk_.show();
    const AlertDesk::Places places = desk_.take_places();
    cards_.changed(places.courts);
    const std::set<std::uint32_t> renewed = cards_.renew(now);
    board_.tell();
    watch_.close_matches(places.matches, renewed);
}

// The cards follow in the next round; the alert itself is on the board already.
VenueKeeper::Act VenueKeeper::acted(Act act) {
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.acted = true;
    inbox_filled_.notify_all();
    return act;
}

VenueKeeper::Act VenueKeeper::claim(const std::string& id, const std::string& by) {
    return acted(desk_.claim(id, by, clock_()));
}

VenueKeeper::Act VenueKeeper::acknowledge(const std::string& id, const std::string& by) {
    return acted(desk_.acknowledge(id, by, clock_()));
}

VenueKeeper::Act VenueKeeper::rule(const std::string& id, bool accept, const std::string& note,
                                   const std::string& by) {
    return acted(desk_.rule(id, accept, note, by, clock_()));
}

VenueKeeper::Act VenueKeeper::shelve(const std::string& id, std::chrono::minutes time,
                                     const std::string& note, const std::string& by) {
    return acted(desk_.shelve(id, time, note, by, clock_()));
}

std::optional<ServerTime> VenueKeeper::last_seen(DeviceId device) const {
    const auto heard = heard_.last(device);
    return heard ? std::optional{heard->wall} : std::nullopt;
}

}  // namespace courthand::server::venue
