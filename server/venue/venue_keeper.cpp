#include "server/venue/venue_keeper.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <utility>

#include "server/alerts/match_conditions.h"
#include "server/venue/alert_message.h"
#include "server/venue/history_part.h"
#include "server/venue/ruling_notice.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

namespace {

using alerts::Now;

// A card's "last seen" moves in steps, so that a quiet court does not renew its card every second.
constexpr std::chrono::seconds seen_step{10};
// Devices speak at least this often when they are connected.
constexpr std::chrono::seconds staffed_within{30};

}  // namespace

VenueKeeper::VenueKeeper(TournamentId tournament, alerts::AlertStore& store, Clock clock,
                         ReadRefusals refusals)
    : tournament_{tournament},
      clock_{std::move(clock)},
      read_refusals_{std::move(refusals)},
      alerts_{store} {}

VenueKeeper::~VenueKeeper() {
    stop();
}

Status VenueKeeper::start() {
    {
        const std::scoped_lock lock{writers_};
        started_ = clock_();
        if (Status status = alerts_.load(started_); !status.ok()) return status;
    }
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
    std::optional<alerts::MatchHistory> resting;
    if (!match.record) resting = resting_history(match.key.match);
    MatchView view = view_of(match, resting ? *resting : followed(match, afresh));
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.matches[match.key.match] = std::move(view);
    inbox_filled_.notify_all();
}

const alerts::MatchHistory& VenueKeeper::followed(const LiveMatch& match, bool afresh) {
    resting_.erase(match.key.match);
    alerts::MatchHistory& history = histories_[match.key.match];
    if (afresh) history = {};
    history.follow(match);
    return history;
}

alerts::MatchHistory VenueKeeper::resting_history(MatchId match) const {
    const auto found = resting_.find(match);
    return found == resting_.end() ? alerts::MatchHistory{} : history_of_part(found->second);
}

void VenueKeeper::on_match_changed(const MatchChanged& change) {
    if (change.cause == MatchChanged::Cause::rebuilt && !change.match.record)
        resting_[change.match.key.match] = change.snapshot_part;
    // Plan and writer change nothing of what the record says.
    take(change.match, change.cause == MatchChanged::Cause::corrected ||
                           change.cause == MatchChanged::Cause::rebuilt);
}

std::string VenueKeeper::snapshot_part(MatchId match) {
    const auto found = histories_.find(match);
    if (found != histories_.end()) return history_part(found->second);
    const auto resting = resting_.find(match);
    return resting == resting_.end() ? std::string{} : resting->second;
}

void VenueKeeper::on_rests(MatchId match) {
    const auto found = histories_.find(match);
    if (found == histories_.end()) return;
    resting_[match] = history_part(found->second);
    histories_.erase(found);
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
    std::uint32_t& number = inbox_.moved[std::move(moved->id)];
    number = std::max(number, moved->number);
    inbox_filled_.notify_all();
}

void VenueKeeper::on_begun_anew() {
    histories_.clear();
    resting_.clear();
    rebuilt_ = false;
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.matches.clear();
    inbox_.moved.clear();
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
            inbox_filled_.wait_until(lock, next_beat, [&] {
                return stopping_ || !inbox_.matches.empty() || !inbox_.moved.empty() ||
                       inbox_.courts || inbox_.rebuilt;
            });
            if (stopping_) return;
            news = std::exchange(inbox_, Inbox{});
        }
        const auto time = std::chrono::steady_clock::now();
        const bool beat_due = time >= next_beat;
        if (beat_due) next_beat = time + beat;
        const std::scoped_lock lock{writers_};
        (void)round_.run([&] { work(std::move(news), clock_(), beat_due); });
    }
}

// Each part by itself: what one throws costs that part and this round.
void VenueKeeper::work(Inbox news, const Now& now, bool beat_due) {
    const auto moved = std::exchange(news.moved, {});
    take_news(std::move(news), now);
    // The board first: people must see what the matches are now, also while the database is away or
    // slow, and nothing that may wait for it comes before.
    const auto show = [&] {
        if (beat_due) find_unstaffed(now);
        renew_board(now);
    };
    (void)showing_.run(show);
    (void)observing_.run([&] { observe(moved, now, beat_due); });
    (void)showing_.run(show);
    // What could not be kept waits for the database.
    if (ready_) (void)keeping_.run([&] { keep(now); });
}

void VenueKeeper::take_news(Inbox news, const Now& now) {
    if (news.courts) take_courts(*std::move(news.courts));
    if (news.begun_anew) forget_matches();
    for (auto& match : news.matches)
        (void)taking_.run([&] { take_view(std::move(match.second), now); });
    (void)taking_.run([&] {
        hear_devices();
        watch_changed_courts();
    });
    if (news.rebuilt) rebuilt_told_ = true;
}

// What another server heard before this one began to listen says nothing: a court that was not seen
// when the server stopped stays so until it is heard of again.
void VenueKeeper::hear_devices() {
    for (const HeardDevices::Heard& heard : heard_.take_news()) {
        if (heard.court == 0 || heard.at.steady < started_.steady) continue;
        if (!speaks_for(heard.court, heard.device)) continue;
        watch_.heard(heard.court, heard.at);
        changed_courts_.insert(heard.court);
    }
}

// A spare tablet of the court says nothing about the table that writes its match.
bool VenueKeeper::speaks_for(std::uint32_t court, DeviceId device) const {
    const MatchView* match = matches_.current(court);
    const bool written = match && match->begun && !match->over() && !match->writer.nil();
    return !written || match->writer == device;
}

void VenueKeeper::take_courts(std::set<std::uint32_t> courts) {
    changed_courts_.insert(courts_.begin(), courts_.end());
    courts_ = std::move(courts);
    changed_courts_.insert(courts_.begin(), courts_.end());
}

void VenueKeeper::take_view(MatchView view, const Now& now) {
    const MatchId id = view.plan.key.match;
    const std::uint32_t court = view.plan.court;
    const MatchView* known = matches_.find(id);
    const bool grown = view.card.head_seq() > (known ? known->card.head_seq() : 0);
    if (ready_ && grown) watch_.heard(court, now);
    const bool asks = view.asked.has_value();
    if (asks || asking_.contains(id)) asked_changed_ = true;
    if (asks)
        asking_.insert(id);
    else
        asking_.erase(id);
    to_observe_.insert(id);
    changed_courts_.insert(court);
    changed_courts_.insert(matches_.put(std::move(view)));
}

// The database was put back: what was raised since may be gone from it.
void VenueKeeper::forget_matches() {
    for (const auto& [court, matches] : matches_.courts()) changed_courts_.insert(court);
    matches_ = {};
    to_observe_.clear();
    to_close_.clear();
    asking_.clear();
    unread_.clear();
    refusals_.clear();
    anew_due_ = true;
    ready_ = false;
    rebuilt_told_ = false;
}

// True when the store has been read, or need not be. Otherwise it is tried again at the next beat.
bool VenueKeeper::begin_anew(const Now& now) {
    if (anew_due_ && alerts_.load(now).ok()) {
        anew_due_ = false;
        asked_changed_ = true;
        const std::scoped_lock lock{counts_mutex_};
        open_of_match_.clear();
    }
    return !anew_due_;
}

// The records have been folded. What was not seen when the server stopped stays so until it is
// heard of: a restart neither clears such an alert nor raises it again.
void VenueKeeper::begin() {
    ready_ = true;
    for (const auto& [id, alert] : alerts_.book().alerts()) {
        if (!alert.live()) continue;
        if (alert.condition.kind == alerts::Kind::court_not_seen)
            watch_.presume_silent(alert.condition.court);
        if (alert.condition.kind == alerts::Kind::no_court_seen)
            for (const auto& [court, matches] : matches_.courts()) watch_.presume_silent(court);
    }
}

void VenueKeeper::watch_changed_courts() {
    for (const std::uint32_t court : changed_courts_) {
        const MatchView* view = matches_.current(court);
        const bool live = view && view->begun && !view->over();
        watch_.set_match(court, live ? std::optional{view->plan.key.match} : std::nullopt,
                         live ? view->stage : Stage::before_match);
    }
}

void VenueKeeper::renew_board(const Now& now) {
    const KeptBook::Changes changes = alerts_.take_changes();
    show_alerts(changes.alerts);
    count_open(changes.matches);
    changed_courts_.insert(changes.courts.begin(), changes.courts.end());
    for (const std::uint32_t court : changed_courts_) {
        if (court == 0) continue;
        if (courts_.contains(court) || matches_.has_court(court))
            put_card(court, now);
        else
            board_.remove_court(court);
    }
    board_.tell();
    to_close_.insert(changes.matches.begin(), changes.matches.end());
    close_matches(std::exchange(changed_courts_, {}));
    alerts_.trim();
}

void VenueKeeper::show_alerts(const std::set<alerts::AlertId>& changed) {
    for (const alerts::AlertId& id : changed) {
        if (const alerts::Alert* alert = alerts_.book().find(id)) {
            board_.put(to_message(*alert));
        } else if (auto shown = board_.alert(id); shown && !ended(*shown)) {
            // Another server's word took its place, and it knows of no such alert.
            shown->set_state(v1::ALERT_STATE_CLEARED);
            board_.put(*std::move(shown));
        }
    }
}

void VenueKeeper::count_open(const std::set<MatchId>& changed) {
    const std::scoped_lock lock{counts_mutex_};
    for (const MatchId match : changed) {
        const std::uint32_t open = alerts_.book().open_alerts(match);
        if (open > 0)
            open_of_match_[match] = open;
        else
            open_of_match_.erase(match);
    }
}

// A match that is over and whose alerts have ended leaves memory, but for the one its court shows.
void VenueKeeper::close_matches(const std::set<std::uint32_t>& courts) {
    std::set<MatchId> matches = std::exchange(to_close_, {});
    for (const std::uint32_t court : courts)
        if (const auto here = matches_.courts().find(court); here != matches_.courts().end())
            matches.insert(here->second.begin(), here->second.end());
    for (const MatchId id : matches) close_match(id);
}

void VenueKeeper::close_match(MatchId id) {
    const MatchView* view = matches_.find(id);
    if (!view || !view->over() || to_observe_.contains(id) || asking_.contains(id)) return;
    if (!alerts_.close(alerts::scope_of(id), id)) return;
    if (view->plan.court == 0 || matches_.current(view->plan.court) != view) matches_.remove(id);
}

void VenueKeeper::find_unstaffed(const Now& now) {
    for (const auto& [court, seen] : seen_) {
        const auto heard = watch_.last_heard(court);
        const bool staffed = heard && now.steady - heard->steady < staffed_within;
        if (staffed != seen.staffed) changed_courts_.insert(court);
    }
}

void VenueKeeper::put_card(std::uint32_t court, const Now& now) {
    v1::CourtCard card;
    if (const MatchView* view = matches_.current(court)) card = view->card;
    card.set_court(court);
    const alerts::CourtAlerts open = alerts_.book().of_court(court);
    card.set_alerts_open(open.open);
    if (open.worst) card.set_worst(wire::to_proto(*open.worst));
    if (const auto heard = watch_.last_heard(court)) {
        const bool staffed = now.steady - heard->steady < staffed_within;
        const auto [place, first] = seen_.try_emplace(court);
        Seen& seen = place->second;
        if (first || heard->steady - seen.shown.steady >= seen_step || staffed != seen.staffed)
            seen = {*heard, staffed};
        card.set_table_staffed(staffed);
        card.set_last_seen_us(microseconds(seen.shown.wall));
    }
    board_.put(std::move(card));
}

std::optional<ServerTime> VenueKeeper::last_seen(DeviceId device) const {
    const auto heard = heard_.last(device);
    return heard ? std::optional{heard->wall} : std::nullopt;
}

std::uint32_t VenueKeeper::open_alerts(MatchId match) const {
    const std::scoped_lock lock{counts_mutex_};
    const auto found = open_of_match_.find(match);
    return found == open_of_match_.end() ? 0 : found->second;
}

}  // namespace courthand::server::venue
