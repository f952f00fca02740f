// What is told to the book of alerts in a round, and what is read back for it from a store that may
// be away.
#include <algorithm>
#include <utility>

#include "server/alerts/match_conditions.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {

namespace {

using alerts::Now;

constexpr const char* take_overs = "take-overs";
constexpr const char* refused_entries = "refused entries";
constexpr const char* room = "room";

bool same(const Refusals::Refusal& one, const Refusals::Refusal& other) {
    return one.match == other.match && one.device == other.device && one.court == other.court &&
           one.number == other.number && one.cause == other.cause;
}

}  // namespace

void VenueKeeper::keep(const Now& now) {
    if (now.steady < keeps_again_) return;
    const Status kept = alerts_.keep(now);
    if (!kept.definite()) keeps_again_ = clock_().steady + keeps_again_after;
}

void VenueKeeper::observe(const std::map<alerts::AlertId, std::uint32_t>& moved, const Now& now,
                          bool beat_due) {
    store_away_ = false;
    if (!ready_ && rebuilt_told_ && begin_anew(now)) begin();
    if (!ready_) return;
    // What one throws costs none of the others.
    hear_of_acts(moved, now);
    observe_matches(now);
    if (beat_due || asked_changed_)
        (void)observing_take_overs_.run([&] { observe_take_overs(now); });
    if (!beat_due) return;
    (void)observing_courts_.run([&] { observe_courts(now); });
    (void)observing_refusals_.run([&] { observe_refusals(now); });
    (void)observing_room_.run([&] { observe_room(now); });
    alerts_.tick(now);
}

// What the book does not know is read back; true when it lacks nothing then. A database that did
// not answer is not waited for a second time in one round.
bool VenueKeeper::looked_up(const std::vector<alerts::AlertId>& unknown, const Now& now) {
    if (unknown.empty()) return true;
    if (store_away_) return false;
    const Status read = alerts_.read_back(unknown, now);
    store_away_ = read.passing();
    return read.ok();
}

// What the book has forgotten is read back before it is told of it again. While the database is
// away, matches with something new wait; their cards do not.
void VenueKeeper::observe_matches(const Now& now) {
    std::vector<alerts::AlertId> unknown;
    for (const MatchId id : to_observe_) {
        const auto ids = alerts_.book().unknown(matches_.find(id)->conditions);
        unknown.insert(unknown.end(), ids.begin(), ids.end());
    }
    // Those of all matches at once. Where one of them cannot be read, each match asks for its own.
    bool all = false;
    (void)observing_match_.run([&] { all = looked_up(unknown, now); });
    for (const MatchId id : std::set<MatchId>{to_observe_})
        (void)observing_match_.run([&] {
            if (all || looked_up(alerts_.book().unknown(matches_.find(id)->conditions), now))
                observe_match(id, now);
        });
}

void VenueKeeper::observe_match(MatchId id, const Now& now) {
    MatchView& view = *matches_.find(id);
    to_observe_.erase(id);
    alerts_.observe(alerts::scope_of(id), std::exchange(view.conditions, {}), now);
    if (view.over()) to_close_.insert(id);
}

void VenueKeeper::observe_courts(const Now& now) {
    std::vector<alerts::Condition> silent = watch_.conditions(now, started_);
    // Without the database the silence of a court is told all the same; a life that was not read
    // back comes to light when it is kept.
    (void)looked_up(alerts_.book().unknown(silent), now);
    alerts_.observe(alerts::CourtWatch::scope, std::move(silent), now);
}

void VenueKeeper::observe_take_overs(const Now& now) {
    std::vector<alerts::Condition> conditions;
    for (const MatchId id : asking_) {
        const MatchView& view = *matches_.find(id);
        std::optional<std::chrono::seconds> silence;
        if (const auto heard = heard_.last(view.writer))
            silence = std::chrono::duration_cast<std::chrono::seconds>(now.steady - heard->steady);
        conditions.push_back(*view.asked);
        conditions.back().text = alerts::take_over_words(view.plan, silence);
    }
    if (!looked_up(alerts_.book().unknown(conditions), now)) return;
    alerts_.observe(take_overs, std::move(conditions), now);
    asked_changed_ = false;
}

void VenueKeeper::observe_refusals(const Now& now) {
    std::vector<Refusals::Refusal> refusals =
        read_refusals_ ? read_refusals_() : std::vector<Refusals::Refusal>{};
    if (std::equal(refusals.begin(), refusals.end(), refusals_.begin(), refusals_.end(), same))
        return;
    std::vector<alerts::Condition> conditions;
    for (const Refusals::Refusal& refusal : refusals) {
        const MatchView* view = matches_.find(refusal.match);
        conditions.push_back(alerts::refusal_condition(refusal, view ? view->plan : MatchPlan{}));
    }
    if (!looked_up(alerts_.book().unknown(conditions), now)) return;
    alerts_.observe(refused_entries, std::move(conditions), now);
    refusals_ = std::move(refusals);
}

// An act at another server is shown here too; one of this server is known already. What cannot be
// read now is read in a later round.
void VenueKeeper::hear_of_acts(std::map<alerts::AlertId, std::uint32_t> moved, const Now& now) {
    moved.merge(std::exchange(unread_, {}));
    unread_ = std::move(moved);
    std::erase_if(unread_, [&](const auto& act) {
        if (store_away_) return false;
        bool heard = false;
        (void)hearing_.run([&] {
            const Status read = alerts_.hear(act.first, act.second, now);
            store_away_ = read.passing();
            heard = read.ok();
        });
        return heard;
    });
}

void VenueKeeper::observe_room(const Now& now) {
    std::vector<alerts::Condition> conditions;
    if (alerts_.book().full()) conditions.push_back(alerts::too_many_condition());
    (void)looked_up(alerts_.book().unknown(conditions), now);
    alerts_.observe(room, std::move(conditions), now);
}

}  // namespace courthand::server::venue
