#include "server/venue/venue_keeper.h"

#include <algorithm>
#include <utility>

#include "courthand/rules/reason.h"
#include "server/alerts/match_conditions.h"
#include "server/venue/alert_message.h"
#include "server/venue/history_part.h"
#include "wire/fact_convert.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

namespace {

using alerts::AlertBook;
using alerts::LifeEntry;

// A card's "last seen" moves in steps, so that a quiet court does not renew its card every second.
constexpr std::chrono::seconds seen_step{10};
// Devices speak at least this often when they are connected.
constexpr std::chrono::seconds staffed_within{30};

// The notice a table is sent; nothing when the alert is not about a verdict of the rules.
std::optional<v1::RulingNotice> notice_of(const alerts::Alert& alert, const LifeEntry& ruling) {
    const alerts::Condition& condition = alert.condition;
    const auto reason = reason_of(condition.code);
    if (!reason || condition.match.nil() || !condition.team) return std::nullopt;
    v1::RulingNotice notice;
    notice.set_alert_id(ruling.id);
    notice.set_match_id(to_bytes(condition.match.value));
    notice.set_accepted(ruling.accepted);
    notice.set_reason(condition.code);
    notice.set_team(wire::to_proto(*condition.team));
    if (!condition.evidence.entries.empty()) notice.set_seq(condition.evidence.entries.front());
    notice.set_note(ruling.note);
    return notice;
}

}  // namespace

VenueKeeper::VenueKeeper(TournamentId tournament, alerts::AlertStore& store, Clock clock,
                         SendRuling send_ruling)
    : tournament_{tournament},
      store_{store},
      clock_{std::move(clock)},
      send_ruling_{std::move(send_ruling)} {}

VenueKeeper::~VenueKeeper() {
    stop();
}

Status VenueKeeper::start() {
    Result<std::vector<LifeEntry>> lives = store_.load();
    if (!lives.ok()) return lives.status();
    {
        const std::scoped_lock lock{mutex_};
        for (const LifeEntry& entry : *lives) book_.apply(entry);
        started_ = clock_();
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
    if (seen.tournament != tournament_) return;
    const std::scoped_lock lock{inbox_mutex_};
    if (devices_seen_.size() < most_devices) devices_seen_[seen.device] = seen.at;
    if (seen.court != 0) inbox_.seen[seen.court] = seen.at;
}

void VenueKeeper::on_begun_anew() {
    histories_.clear();
    resting_.clear();
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.matches.clear();
    inbox_.begun_anew = true;
}

void VenueKeeper::on_rebuilt() {
    const std::scoped_lock lock{inbox_mutex_};
    inbox_.rebuilt = true;
    inbox_filled_.notify_all();
}

void VenueKeeper::run() {
    while (true) {
        Inbox news;
        {
            std::unique_lock lock{inbox_mutex_};
            inbox_filled_.wait_for(lock, beat, [&] {
                return stopping_ || !inbox_.matches.empty() || inbox_.courts || inbox_.rebuilt;
            });
            if (stopping_) return;
            news = std::exchange(inbox_, Inbox{});
        }
        work(std::move(news), clock_());
    }
}

void VenueKeeper::work(Inbox news, ServerTime now) {
    const std::scoped_lock lock{mutex_};
    if (news.courts) courts_ = *std::move(news.courts);
    if (news.begun_anew) matches_.clear();
    for (auto& [id, view] : news.matches) observe_match(id, std::move(view), now);
    if (news.rebuilt && !ready_) {
        ready_ = true;
        presume_silence();
        for (const auto& [id, view] : matches_)
            wait_to_keep(book_.observe(alerts::scope_of(id), view.conditions, now));
    }
    for (const auto& [court, at] : news.seen) watch_.heard(court, at);
    if (ready_) {
        wait_to_keep(
            book_.observe(alerts::CourtWatch::scope, watch_.conditions(now, started_), now));
        // The board is renewed all the same: people must see an alert even while the database is
        // away; what could not be kept waits for it.
        (void)keep_waiting();
        send_waiting_rulings();
    }
    renew_board(now);
}

void VenueKeeper::observe_match(MatchId id, MatchView view, ServerTime now) {
    if (view.last_entry_at >= started_) watch_.heard(view.plan.court, view.last_entry_at);
    if (ready_) wait_to_keep(book_.observe(alerts::scope_of(id), view.conditions, now));
    matches_[id] = std::move(view);
}

// What was not seen when the server stopped stays so until it is heard of: a restart neither
// clears such an alert nor raises it again.
void VenueKeeper::presume_silence() {
    for (const auto& [id, alert] : book_.alerts()) {
        if (!alert.live()) continue;
        if (alert.condition.kind == alerts::Kind::court_not_seen)
            watch_.presume_silent(alert.condition.court);
        if (alert.condition.kind == alerts::Kind::no_court_seen)
            for (const auto& [match, view] : matches_) watch_.presume_silent(view.plan.court);
    }
    // The watch must know what is on the courts before it is asked for the first time.
    renew_board(started_);
}

void VenueKeeper::wait_to_keep(std::vector<LifeEntry> entries) {
    for (LifeEntry& entry : entries)
        if (waiting_.size() < most_waiting) waiting_.push_back(std::move(entry));
}

Status VenueKeeper::keep_waiting() {
    if (waiting_.empty()) return Status::fine();
    const std::vector<LifeEntry> entries{waiting_.begin(), waiting_.end()};
    Status status = store_.append(entries);
    if (status.ok()) waiting_.clear();
    return status;
}

void VenueKeeper::send_waiting_rulings() {
    while (!waiting_rulings_.empty()) {
        const Status status = send_ruling_(waiting_rulings_.front());
        if (status.passing()) return;
        waiting_rulings_.pop_front();
    }
}

void VenueKeeper::renew_board(ServerTime now) {
    std::set<std::uint32_t> courts = courts_;
    for (const auto& [id, view] : matches_)
        if (view.plan.court != 0) courts.insert(view.plan.court);
    for (const std::uint32_t court : courts) {
        const MatchView* view = current_on_court(matches_, court);
        const bool live = view && view->begun && !view->over();
        watch_.set_match(court, live ? std::optional{view->plan.key.match} : std::nullopt,
                         live ? view->stage : Stage::before_match);
        put_card(court, view, now);
    }
    for (const std::uint32_t court : courts_shown_)
        if (!courts.contains(court)) board_.remove_court(court);
    courts_shown_ = std::move(courts);
    for (const alerts::AlertId& id : book_.take_changed()) board_.put(to_message(*book_.find(id)));
}

void VenueKeeper::put_card(std::uint32_t court, const MatchView* view, ServerTime now) {
    v1::CourtCard card;
    if (view) card = view->card;
    card.set_court(court);
    std::optional<Severity> worst;
    std::uint32_t open = 0;
    for (const auto& [id, alert] : book_.alerts()) {
        if (!alert.live() || alert.condition.court != court) continue;
        ++open;
        // A shelved alert is out of sight; it is counted, but does not colour the card.
        if (alert.state == alerts::State::shelved) continue;
        if (!worst || alert.condition.severity < *worst) worst = alert.condition.severity;
    }
    card.set_alerts_open(open);
    if (worst) card.set_worst(wire::to_proto(*worst));
    if (const auto heard = watch_.last_heard(court)) {
        card.set_table_staffed(now - *heard < staffed_within);
        const auto shown = board_.card(court);
        const bool step = !shown || *heard - moment(shown->last_seen_us()) >= seen_step ||
                          shown->table_staffed() != card.table_staffed();
        card.set_last_seen_us(step ? microseconds(*heard) : shown->last_seen_us());
    }
    board_.put(std::move(card));
}

VenueKeeper::Act VenueKeeper::act(const std::string& id, const Decide& decide) {
    const std::scoped_lock lock{mutex_};
    const ServerTime now = clock_();
    alerts::Acted acted = decide(book_, now);
    if (const auto* refusal = std::get_if<alerts::ActRefusal>(&acted)) return *refusal;
    const auto& entry = std::get<LifeEntry>(acted);
    // What came before must be kept before what follows from it.
    if (const Status status = keep_waiting(); !status.ok()) return status;
    if (const Status status = store_.append({&entry, 1}); !status.ok()) return status;
    book_.apply(entry);
    const alerts::Alert& alert = *book_.find(id);
    if (entry.what == LifeEntry::What::ruled) {
        if (auto notice = notice_of(alert, entry)) waiting_rulings_.push_back(*std::move(notice));
        send_waiting_rulings();
    }
    renew_board(now);
    return to_message(alert);
}

VenueKeeper::Act VenueKeeper::claim(const std::string& id, const std::string& by) {
    return act(id, [&](const AlertBook& book, ServerTime now) { return book.claim(id, by, now); });
}

VenueKeeper::Act VenueKeeper::acknowledge(const std::string& id, const std::string& by) {
    return act(
        id, [&](const AlertBook& book, ServerTime now) { return book.acknowledge(id, by, now); });
}

VenueKeeper::Act VenueKeeper::rule(const std::string& id, bool accept, const std::string& note,
                                   const std::string& by) {
    return act(id, [&](const AlertBook& book, ServerTime now) {
        return book.rule(id, accept, note, by, now);
    });
}

VenueKeeper::Act VenueKeeper::shelve(const std::string& id, std::chrono::minutes time,
                                     const std::string& note, const std::string& by) {
    return act(id, [&](const AlertBook& book, ServerTime now) {
        return book.shelve(id, time, note, by, now);
    });
}

std::optional<ServerTime> VenueKeeper::last_seen(DeviceId device) const {
    const std::scoped_lock lock{inbox_mutex_};
    const auto found = devices_seen_.find(device);
    return found == devices_seen_.end() ? std::nullopt : std::optional{found->second};
}

std::uint32_t VenueKeeper::open_alerts(MatchId match) const {
    const std::scoped_lock lock{mutex_};
    return static_cast<std::uint32_t>(
        std::count_if(book_.alerts().begin(), book_.alerts().end(), [&](const auto& item) {
            return item.second.live() && item.second.condition.match == match;
        }));
}

}  // namespace courthand::server::venue
