#include "server/venue/court_cards.h"

#include <utility>

#include "server/alerts/match_conditions.h"
#include "server/venue/alert_message.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

using alerts::Now;

void CourtCards::set_courts(std::set<std::uint32_t> courts) {
    changed(courts_);
    courts_ = std::move(courts);
    changed(courts_);
}

void CourtCards::changed(const std::set<std::uint32_t>& courts) {
    changed_.insert(courts.begin(), courts.end());
}

bool CourtCards::put(MatchView view) {
    const MatchView* known = matches_.find(view.plan.key.match);
    const bool grown = view.card.head_seq() > (known ? known->card.head_seq() : 0);
    changed_.insert(view.plan.court);
    changed_.insert(matches_.put(std::move(view)));
    return grown;
}

void CourtCards::forget_matches() {
    for (const auto& [court, matches] : matches_.courts()) changed_.insert(court);
    matches_ = {};
}

void CourtCards::heard(const HeardDevices::Heard& device) {
    if (device.court == 0 || !speaks_for(device.court, device.device)) return;
    watch_.heard(device.court, device.at);
    changed_.insert(device.court);
}

bool CourtCards::speaks_for(std::uint32_t court, DeviceId device) const {
    const MatchView* match = matches_.current(court);
    const bool written = match && match->begun && !match->over() && !match->writer.nil();
    return !written || match->writer == device;
}

void CourtCards::watch_changed() {
    for (const std::uint32_t court : changed_) {
        const MatchView* view = matches_.current(court);
        const bool live = view && view->begun && !view->over();
        watch_.set_match(court, live ? std::optional{view->plan.key.match} : std::nullopt,
                         live ? view->stage : Stage::before_match);
    }
}

void CourtCards::find_unstaffed(const Now& now) {
    for (const auto& [court, seen] : seen_) {
        const auto heard = watch_.last_heard(court);
        const bool staffed = heard && now.steady - heard->steady < staffed_within;
        if (staffed != seen.staffed) changed_.insert(court);
    }
}

std::set<std::uint32_t> CourtCards::renew(const Now& now) {
    for (const std::uint32_t court : changed_) {
        if (court == 0) continue;
        if (courts_.contains(court) || matches_.has_court(court))
            put_card(court, now);
        else
            board_.remove_court(court);
    }
    return std::exchange(changed_, {});
}

void CourtCards::put_card(std::uint32_t court, const Now& now) {
    v1::CourtCard card;
    const MatchView* const view = matches_.current(court);
    if (view) card = view->card;
    card.set_court(court);
    const alerts::CourtAlerts open = alerts_of_(court, view ? view->plan.key.match : MatchId{});
    card.set_alerts_open(open.open);
    card.set_alerts_elsewhere(open.of_others);
    if (open.worst) card.set_worst(wire::to_proto(*open.worst));
    put_presence(court, now, card);
    board_.put(std::move(card));
}

void CourtCards::put_presence(std::uint32_t court, const Now& now, v1::CourtCard& card) {
    const auto heard = watch_.last_heard(court);
    if (!heard) return;
    const bool staffed = now.steady - heard->steady < staffed_within;
    const auto [place, first] = seen_.try_emplace(court);
    Seen& seen = place->second;
    if (first || heard->steady - seen.shown.steady >= seen_step || staffed != seen.staffed)
        seen = {*heard, staffed};
    card.set_table_staffed(staffed);
    card.set_last_seen_us(microseconds(seen.shown.wall));
}

std::vector<alerts::Condition> CourtCards::silent(const Now& now, const Now& started) const {
    std::vector<alerts::Condition> all = watch_.conditions(now, started);
    for (alerts::Condition& each : all)
        if (const MatchView* view = matches_.find(each.match)) {
            each.match_number = view->plan.number;
            each.match_name = view->plan.name;
        }
    return all;
}

std::vector<alerts::Condition> CourtCards::crowded() const {
    std::vector<alerts::Condition> all;
    for (const auto& [court, matches] : matches_.courts()) {
        std::vector<std::string> played;
        for (const MatchId id : matches)
            if (const MatchView& view = *matches_.find(id); view.played())
                played.push_back(alerts::match_called(view.plan));
        if (played.size() > 1) all.push_back(alerts::crowded_condition(court, played));
    }
    return all;
}

}  // namespace courthand::server::venue
