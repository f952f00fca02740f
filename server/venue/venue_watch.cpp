#include "server/venue/venue_watch.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "server/alerts/match_conditions.h"

namespace courthand::server::venue {

namespace {

using alerts::Now;

constexpr const char* take_overs = "take-overs";
constexpr const char* refused_entries = "refused entries";
constexpr const char* crowded_courts = "crowded courts";
constexpr const char* room = "room";

bool same(const Refusals::Refusal& one, const Refusals::Refusal& other) {
    return one.match == other.match && one.device == other.device && one.court == other.court &&
           one.number == other.number && one.cause == other.cause;
}

}  // namespace

void VenueWatch::take(MatchView view, const Now& now) {
    const MatchId id = view.plan.key.match;
    const std::uint32_t court = view.plan.court;
    const bool asks = view.asked.has_value();
    if (asks || asking_.contains(id)) asked_changed_ = true;
    if (asks)
        asking_.insert(id);
    else
        asking_.erase(id);
    to_observe_.insert(id);
    if (parts_.cards.put(std::move(view)) && ready_) parts_.cards.grown(court, now);
}

void VenueWatch::forget_matches() {
    parts_.cards.forget_matches();
    to_observe_.clear();
    to_close_.clear();
    asking_.clear();
    unread_.clear();
    refusals_.clear();
    anew_due_ = true;
    ready_ = false;
    all_told_ = false;
}

// True when the store has been read, or need not be. Otherwise it is tried again at the next beat.
bool VenueWatch::begin_anew(const Now& now) {
    if (anew_due_ && parts_.desk.load(now).ok()) {
        anew_due_ = false;
        asked_changed_ = true;
    }
    return !anew_due_;
}

// What was not seen when the server stopped stays so until it is heard of: a restart neither clears
// such an alert nor raises it again.
void VenueWatch::begin() {
    ready_ = true;
    for (const alerts::Condition& condition : parts_.desk.live()) {
        if (condition.kind == alerts::Kind::court_not_seen)
            parts_.cards.presume_silent(condition.court);
        if (condition.kind == alerts::Kind::no_court_seen)
            for (const auto& [court, matches] : parts_.cards.matches())
                parts_.cards.presume_silent(court);
    }
}

void VenueWatch::observe(const ActsHeard& acts, const Now& now, bool beat_due) {
    store_away_ = false;
    if (!ready_ && all_told_ && begin_anew(now)) begin();
    if (!ready_) return;
    // What one throws costs none of the others.
    hear_of_acts(acts, now);
    observe_matches(now);
    if (beat_due || asked_changed_)
        (void)observing_take_overs_.run([&] { observe_take_overs(now); });
    if (!beat_due) return;
    (void)observing_courts_.run([&] { observe_courts(now); });
    (void)observing_crowded_.run([&] { observe_crowded(now); });
    (void)observing_refusals_.run([&] { observe_refusals(now); });
    (void)observing_room_.run([&] { observe_room(now); });
    parts_.desk.tick(now);
}

void VenueWatch::keep(const Clock& clock) {
    const Now now = clock();
    // What could not be kept waits for the database.
    if (!ready_ || now.steady < keeps_again_) return;
    const Status kept = parts_.desk.keep(now);
    if (!kept.definite()) keeps_again_ = clock().steady + keeps_again_after;
}

// What the desk does not know is read back; true when it lacks nothing then. A database that did
// not answer is not waited for a second time in one round.
bool VenueWatch::looked_up(const std::vector<alerts::AlertId>& unknown, const Now& now) {
    if (unknown.empty()) return true;
    if (store_away_) return false;
    const Status read = parts_.desk.read_back(unknown, now);
    store_away_ = read.passing();
    return read.ok();
}

// What the desk has forgotten is read back before it is told of it again. While the database is
// away, matches with something new wait; their cards do not.
void VenueWatch::observe_matches(const Now& now) {
    std::vector<alerts::AlertId> unknown;
    for (const MatchId id : to_observe_) {
        const auto ids = parts_.desk.unknown(parts_.cards.find(id)->conditions);
        unknown.insert(unknown.end(), ids.begin(), ids.end());
    }
    // Those of all matches at once. Where one of them cannot be read, each match asks for its own.
    bool all = false;
    (void)observing_match_.run([&] { all = looked_up(unknown, now); });
    for (const MatchId id : std::set<MatchId>{to_observe_})
        (void)observing_match_.run([&] {
            if (all || looked_up(parts_.desk.unknown(parts_.cards.find(id)->conditions), now))
                observe_match(id, now);
        });
}

void VenueWatch::observe_match(MatchId id, const Now& now) {
    MatchView& view = *parts_.cards.find(id);
    to_observe_.erase(id);
    parts_.desk.observe(alerts::scope_of(id), std::exchange(view.conditions, {}), now);
    if (view.over()) to_close_.insert(id);
}

void VenueWatch::observe_courts(const Now& now) {
    std::vector<alerts::Condition> silent = parts_.cards.silent(now, started_);
    // Without the database the silence of a court is told all the same; a life that was not read
    // back comes to light when it is kept.
    (void)looked_up(parts_.desk.unknown(silent), now);
    parts_.desk.observe(alerts::CourtWatch::scope, std::move(silent), now);
}

void VenueWatch::observe_crowded(const Now& now) {
    std::vector<alerts::Condition> crowded = parts_.cards.crowded();
    if (!looked_up(parts_.desk.unknown(crowded), now)) return;
    parts_.desk.observe(crowded_courts, std::move(crowded), now);
}

void VenueWatch::observe_take_overs(const Now& now) {
    std::vector<alerts::Condition> conditions;
    for (const MatchId id : asking_) {
        const MatchView& view = *parts_.cards.find(id);
        std::optional<std::chrono::seconds> silence;
        if (const auto heard = parts_.heard.last(view.writer))
            silence = std::chrono::duration_cast<std::chrono::seconds>(now.steady - heard->steady);
        conditions.push_back(*view.asked);
        conditions.back().text = alerts::take_over_words(view.plan, silence);
    }
    if (!looked_up(parts_.desk.unknown(conditions), now)) return;
    parts_.desk.observe(take_overs, std::move(conditions), now);
    asked_changed_ = false;
}

void VenueWatch::observe_refusals(const Now& now) {
    std::vector<Refusals::Refusal> refusals =
        read_refusals_ ? read_refusals_() : std::vector<Refusals::Refusal>{};
    if (std::equal(refusals.begin(), refusals.end(), refusals_.begin(), refusals_.end(), same))
        return;
    std::vector<alerts::Condition> conditions;
    for (const Refusals::Refusal& refusal : refusals) {
        const MatchView* view = parts_.cards.find(refusal.match);
        conditions.push_back(alerts::refusal_condition(refusal, view ? view->plan : MatchPlan{}));
    }
    if (!looked_up(parts_.desk.unknown(conditions), now)) return;
    parts_.desk.observe(refused_entries, std::move(conditions), now);
    refusals_ = std::move(refusals);
}

// An act at another server is shown here too; one of this server is known already. What cannot be
// read now is read in a later round.
void VenueWatch::hear_of_acts(const ActsHeard& acts, const Now& now) {
    for (const auto& [id, number] : acts) {
        std::uint32_t& known = unread_[id];
        known = std::max(known, number);
    }
    std::erase_if(unread_, [&](const auto& act) {
        if (store_away_) return false;
        bool heard = false;
        (void)hearing_.run([&] {
            const Status read = parts_.desk.hear(act.first, act.second, now);
            store_away_ = read.passing();
            heard = read.ok();
        });
        return heard;
    });
}

void VenueWatch::observe_room(const Now& now) {
    std::vector<alerts::Condition> conditions;
    if (parts_.desk.full()) conditions.push_back(alerts::too_many_condition());
    (void)looked_up(parts_.desk.unknown(conditions), now);
    parts_.desk.observe(room, std::move(conditions), now);
}

// But for the one its court shows.
void VenueWatch::close_matches(const std::set<MatchId>& matches,
                               const std::set<std::uint32_t>& courts) {
    std::set<MatchId> all = std::exchange(to_close_, {});
    all.insert(matches.begin(), matches.end());
    for (const std::uint32_t court : courts) {
        const auto here = parts_.cards.matches().find(court);
        if (here != parts_.cards.matches().end())
            all.insert(here->second.begin(), here->second.end());
    }
    for (const MatchId id : all) close_match(id);
}

void VenueWatch::close_match(MatchId id) {
    const MatchView* view = parts_.cards.find(id);
    if (!view || !view->over() || to_observe_.contains(id) || asking_.contains(id)) return;
    if (!parts_.desk.close(alerts::scope_of(id), id)) return;
    if (view->plan.court == 0 || parts_.cards.current(view->plan.court) != view)
        parts_.cards.remove(id);
}

}  // namespace courthand::server::venue
