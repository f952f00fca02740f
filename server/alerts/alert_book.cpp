#include "server/alerts/alert_book.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "wire/message_limits.h"

namespace courthand::server::alerts {

namespace {

/// Why a latched fault is no more: it leaves the record only by a correction, but for the writer
/// whom nobody granted it.
std::string_view why_gone(const Condition& condition) {
    return condition.kind == Kind::writer_recovered ? "the match was given to a table, or signed"
                                                    : "the record was corrected";
}

bool latched(const Condition& condition) {
    return row_of(condition.kind).clears != Clears::by_itself;
}

bool chatters(const Alert& alert) {
    return alert.raised.size() >= chatter_raises;
}

std::chrono::seconds clears_after(const Alert& alert) {
    return chatters(alert) ? chatter_clears : row_of(alert.condition.kind).clear_after;
}

bool ends_when_seen(const Alert& alert) {
    return row_of(alert.condition.kind).clears == Clears::when_seen;
}

// Its life in the store says all: it cleared, and comes back as a new alert.
bool forgettable(const Alert& alert) {
    return alert.state == State::cleared && alert.may_reopen;
}

std::chrono::seconds raises_after(const Condition& condition) {
    if (condition.pressing) return std::chrono::seconds{0};
    return condition.raise_after.value_or(row_of(condition.kind).raise_after);
}

}  // namespace

LifeEntry AlertBook::next_entry(const AlertId& id, LifeEntry::What what, const Now& now) const {
    const Alert* alert = find(id);
    LifeEntry entry;
    entry.id = id;
    entry.number = alert ? alert->life + 1 : 1;
    entry.what = what;
    entry.at = now.wall;
    const bool seen_ends = what == LifeEntry::What::acknowledged && alert && ends_when_seen(*alert);
    entry.ends = what == LifeEntry::What::ruled || what == LifeEntry::What::cleared || seen_ends;
    return entry;
}

void AlertBook::keep(LifeEntry entry, const Now& now, Lives& out) {
    apply(entry, now);
    out.push_back(std::move(entry));
}

std::vector<LifeEntry> AlertBook::observe(const std::string& scope,
                                          std::vector<Condition> conditions, const Now& now) {
    std::set<AlertId> told;
    for (Condition& condition : conditions) {
        told.insert(condition.id);
        const auto [place, added] = holding_.try_emplace(condition.id);
        if (added) place->second.since = now.steady;
        place->second.scope = scope;
        place->second.condition = std::move(condition);
    }
    std::set<AlertId> before = std::exchange(scopes_[scope], told);
    if (told.empty()) scopes_.erase(scope);
    for (const AlertId& id : before) {
        const auto held = holding_.find(id);
        if (told.contains(id) || held == holding_.end() || held->second.scope != scope) continue;
        holding_.erase(held);
        without_room_.erase(id);
        // One that had cleared and was about to come back may be forgotten again.
        if (const Alert* alert = find(id); alert && forgettable(*alert)) cleared_.push_back(id);
    }
    told.merge(before);
    Lives out;
    for (const AlertId& id : told) settle(id, now, out);
    return out;
}

std::vector<LifeEntry> AlertBook::tick(const Now& now) {
    Lives out;
    const std::vector<AlertId> ids{waiting_.begin(), waiting_.end()};
    for (const AlertId& id : ids) settle(id, now, out);
    return out;
}

void AlertBook::settle(const AlertId& id, const Now& now, Lives& out) {
    const auto held = holding_.find(id);
    bool waits = false;
    if (held != holding_.end()) {
        waits = settle_holding(id, held->second, now, out);
    } else if (const auto known = alerts_.find(id); known != alerts_.end()) {
        waits = settle_gone(id, known->second, now, out);
    }
    if (const Alert* alert = find(id); alert && alert->state == State::shelved) {
        if (alert->returns_at && now.steady >= *alert->returns_at)
            keep(next_entry(id, LifeEntry::What::returned, now), now, out);
        else
            waits = true;
    }
    if (waits)
        waiting_.insert(id);
    else
        waiting_.erase(id);
}

bool AlertBook::has_room(Kind kind) const noexcept {
    return alerts_.size() < most_ || kind == Kind::too_many_alerts;
}

// A condition that holds: raise its alert, or show what is new about it. True: time may raise it.
bool AlertBook::settle_holding(const AlertId& id, const Holding& holding, const Now& now,
                               Lives& out) {
    const Alert* known = find(id);
    if (!known || (!known->live() && known->may_reopen)) {
        if (now.steady - holding.since < raises_after(holding.condition)) return true;
        if (!known && !has_room(holding.condition.kind)) {
            without_room_.insert(id);
            return true;
        }
        without_room_.erase(id);
        LifeEntry entry = next_entry(id, LifeEntry::What::opened, now);
        entry.condition = holding.condition;
        keep(std::move(entry), now, out);
    }
    Alert& alert = alerts_.at(id);
    alert.gone_since.reset();
    if (!alert.live()) return false;
    if (alert.condition != holding.condition) {
        take_out(id, alert);
        alert.condition = holding.condition;
        put_in(id, alert);
        changed_.insert(id);
    }
    if (holding.condition.outcome == Outcome::stands) return false;
    // The table has recorded a referee's ruling: the person whose task it was has acted.
    LifeEntry entry = next_entry(id, LifeEntry::What::ruled, now);
    entry.by = "table";
    entry.accepted = holding.condition.outcome == Outcome::accepted;
    keep(std::move(entry), now, out);
    return false;
}

// An alert whose condition no longer holds. True: time will clear it.
bool AlertBook::settle_gone(const AlertId& id, Alert& alert, const Now& now, Lives& out) {
    if (!alert.gone_since) alert.gone_since = now.steady;
    if (!alert.live()) {
        // A fault that was ruled stays ruled; a condition may come back as a new alert.
        alert.may_reopen = alert.may_reopen || !latched(alert.condition);
        return false;
    }
    if (now.steady - *alert.gone_since < clears_after(alert)) return true;
    LifeEntry entry = next_entry(id, LifeEntry::What::cleared, now);
    if (latched(alert.condition)) entry.note = why_gone(alert.condition);
    keep(std::move(entry), now, out);
    return false;
}

void AlertBook::tell_places(const Condition& condition) {
    changed_courts_.insert(condition.court);
    if (!condition.match.nil()) changed_matches_.insert(condition.match);
}

void AlertBook::take_out(const AlertId& id, const Alert& alert) {
    if (const auto place = of_match_.find(alert.condition.match); place != of_match_.end()) {
        place->second.erase(id);
        if (place->second.empty()) of_match_.erase(place);
    }
    const std::uint32_t court = alert.condition.court;
    if (const auto place = live_on_court_.find(court); place != live_on_court_.end()) {
        if (place->second.erase(id) > 0) tell_places(alert.condition);
        if (place->second.empty()) live_on_court_.erase(place);
    }
}

void AlertBook::put_in(const AlertId& id, const Alert& alert) {
    if (!alert.condition.match.nil()) of_match_[alert.condition.match].insert(id);
    if (alert.live()) {
        live_on_court_[alert.condition.court].insert(id);
        tell_places(alert.condition);
    }
}

void AlertBook::forget(const AlertId& id) {
    const auto known = alerts_.find(id);
    if (known == alerts_.end()) return;
    take_out(id, known->second);
    alerts_.erase(known);
    waiting_.erase(id);
    changed_.erase(id);
}

bool AlertBook::close(const std::string& scope, MatchId match) {
    const auto told = scopes_.find(scope);
    if (told != scopes_.end())
        for (const AlertId& id : told->second)
            if (const Alert* alert = find(id); !alert || alert->live()) return false;
    if (open_alerts(match) > 0) return false;
    std::set<AlertId> gone;
    if (const auto place = of_match_.find(match); place != of_match_.end())
        for (const AlertId& id : place->second) {
            const auto held = holding_.find(id);
            if (held == holding_.end() || held->second.scope == scope) gone.insert(id);
        }
    if (told != scopes_.end()) {
        gone.insert(told->second.begin(), told->second.end());
        scopes_.erase(told);
    }
    for (const AlertId& id : gone) {
        holding_.erase(id);
        forget(id);
    }
    return true;
}

void AlertBook::trim() {
    while (cleared_.size() > most_cleared) {
        const AlertId id = std::move(cleared_.front());
        cleared_.pop_front();
        const Alert* alert = find(id);
        if (alert && forgettable(*alert) && !holding_.contains(id)) forget(id);
    }
}

void AlertBook::let_go(const AlertId& id) {
    const Alert* alert = find(id);
    if (alert && !alert->live() && !holding_.contains(id)) forget(id);
}

std::vector<AlertId> AlertBook::unknown(std::span<const Condition> conditions) const {
    std::vector<AlertId> ids;
    for (const Condition& condition : conditions)
        if (!alerts_.contains(condition.id) && !holding_.contains(condition.id))
            ids.push_back(condition.id);
    return ids;
}

void AlertBook::open(Alert& alert, const LifeEntry& entry, Steady at) {
    std::vector<Steady> raised = std::move(alert.raised);
    std::erase_if(raised, [&](Steady time) { return at - time >= chatter_window; });
    raised.push_back(at);
    alert = Alert{};
    alert.life = entry.number;
    alert.since = entry.at;
    alert.raised = std::move(raised);
    if (entry.condition) alert.condition = *entry.condition;
}

void AlertBook::apply(const LifeEntry& entry, const Now& now) {
    const auto [place, added] = alerts_.try_emplace(entry.id);
    Alert& alert = place->second;
    if (added && (entry.what != LifeEntry::What::opened || !entry.condition)) {
        alerts_.erase(place);
        return;
    }
    if (!added) take_out(entry.id, alert);
    // Kept times are of the wall clock, which may have been set back since: nothing is younger
    // than now.
    const Steady at = now.steady - std::max(now.wall - entry.at, Instant::duration{0});
    alert.life = entry.number;
    changed_.insert(entry.id);
    waiting_.insert(entry.id);
    switch (entry.what) {
        case LifeEntry::What::opened:
            open(alert, entry, at);
            break;
        case LifeEntry::What::acknowledged:
            alert.acknowledged = true;
            if (ends_when_seen(alert)) alert.state = State::cleared;
            break;
        case LifeEntry::What::claimed:
            alert.state = State::claimed;
            alert.acknowledged = true;
            alert.claimed_by = entry.by;
            break;
        case LifeEntry::What::ruled:
            alert.state = State::ruled;
            alert.accepted = entry.accepted;
            alert.note = entry.note;
            alert.shelved_until.reset();
            break;
        case LifeEntry::What::cleared:
            alert.state = State::cleared;
            alert.note = entry.note;
            alert.shelved_until.reset();
            alert.may_reopen = true;
            cleared_.push_back(entry.id);
            break;
        case LifeEntry::What::shelved:
            alert.state = State::shelved;
            alert.note = entry.note;
            alert.shelved_until = entry.until;
            alert.returns_at = at + (entry.until - entry.at);
            break;
        case LifeEntry::What::returned:
            alert.state = alert.claimed_by.empty() ? State::open : State::claimed;
            alert.note.clear();
            alert.shelved_until.reset();
            break;
    }
    put_in(entry.id, alert);
}

void AlertBook::replace(const AlertId& id, std::span<const LifeEntry> life, const Now& now) {
    forget(id);
    for (const LifeEntry& entry : life) apply(entry, now);
    // What holds is judged again at the next tick; what looks different is told.
    waiting_.insert(id);
    changed_.insert(id);
}

const Alert* AlertBook::find(const AlertId& id) const noexcept {
    const auto found = alerts_.find(id);
    return found == alerts_.end() ? nullptr : &found->second;
}

std::uint32_t AlertBook::open_alerts(MatchId match) const {
    const auto place = of_match_.find(match);
    if (place == of_match_.end()) return 0;
    return static_cast<std::uint32_t>(
        std::count_if(place->second.begin(), place->second.end(),
                      [&](const AlertId& id) { return alerts_.at(id).live(); }));
}

CourtAlerts AlertBook::of_court(std::uint32_t court, MatchId match) const {
    CourtAlerts all;
    const auto place = live_on_court_.find(court);
    if (place == live_on_court_.end()) return all;
    for (const AlertId& id : place->second) {
        const Alert& alert = alerts_.at(id);
        const MatchId of = alert.condition.match;
        if (!of.nil() && of != match) {
            ++all.of_others;
            continue;
        }
        ++all.open;
        // A shelved alert is out of sight; it is counted, but does not colour the card.
        if (alert.state == State::shelved) continue;
        if (!all.worst || alert.condition.severity < *all.worst)
            all.worst = alert.condition.severity;
    }
    return all;
}

std::set<AlertId> AlertBook::take_changed() {
    return std::exchange(changed_, {});
}

std::set<std::uint32_t> AlertBook::take_changed_courts() {
    return std::exchange(changed_courts_, {});
}

std::set<MatchId> AlertBook::take_changed_matches() {
    return std::exchange(changed_matches_, {});
}

Result<const Alert*> AlertBook::to_act_on(const AlertId& id, const std::string& by,
                                          const std::string& note) const {
    if (by.empty() || by.size() > longest_name)
        return Status::failed(StatusCode::invalid, "by: it does not say who acts",
                              "give a name or function of up to 64 bytes");
    if (note.size() > longest_note)
        return Status::failed(StatusCode::invalid, "note: it is too long",
                              "keep it within 500 bytes");
    // The table must be able to write these words into its record.
    constexpr const char* retype = "type it again without special keys";
    if (!wire::fits(by, longest_name))
        return Status::failed(StatusCode::invalid,
                              "by: it holds a control character or is not UTF-8", retype);
    if (!wire::fits(note, longest_note))
        return Status::failed(StatusCode::invalid,
                              "note: it holds a control character or is not UTF-8", retype);
    const Alert* alert = find(id);
    if (!alert)
        return Status::failed(StatusCode::not_found, "there is no such alert",
                              "refresh the list of alerts");
    if (!alert->live())
        return Status::failed(StatusCode::not_now, "this alert has ended", "nothing is left to do");
    return alert;
}

Acted AlertBook::claim(const AlertId& id, const std::string& by, const Now& now) const {
    const auto found = to_act_on(id, by, {});
    if (!found.ok()) return found.status();
    const Alert& alert = **found;
    if (!alert.claimed_by.empty() && alert.claimed_by != by)
        return Status::failed(StatusCode::not_now, alert.claimed_by + " is on the way",
                              "speak with " + alert.claimed_by);
    LifeEntry entry = next_entry(id, LifeEntry::What::claimed, now);
    entry.by = by;
    return entry;
}

Acted AlertBook::acknowledge(const AlertId& id, const std::string& by, const Now& now) const {
    const auto found = to_act_on(id, by, {});
    if (!found.ok()) return found.status();
    LifeEntry entry = next_entry(id, LifeEntry::What::acknowledged, now);
    entry.by = by;
    return entry;
}

Acted AlertBook::rule(const AlertId& id, bool accept, const std::string& note,
                      const std::string& by, const Now& now) const {
    const auto found = to_act_on(id, by, note);
    if (!found.ok()) return found.status();
    const Alert& alert = **found;
    if (alert.condition.kind == Kind::take_over_asked)
        return Status::failed(StatusCode::not_now, "a wish to take over is no fault to rule",
                              "let the new device go on, or say no");
    if (alert.gone_since && latched(alert.condition))
        return Status::failed(StatusCode::not_now,
                              std::string{why_gone(alert.condition)} + " and this no longer stands",
                              "nothing is left to do");
    LifeEntry entry = next_entry(id, LifeEntry::What::ruled, now);
    entry.by = by;
    entry.note = note;
    entry.accepted = accept;
    return entry;
}

Acted AlertBook::shelve(const AlertId& id, std::chrono::minutes time, const std::string& note,
                        const std::string& by, const Now& now) const {
    const auto found = to_act_on(id, by, note);
    if (!found.ok()) return found.status();
    const Alert& alert = **found;
    if (alert.condition.severity == Severity::critical)
        return Status::failed(StatusCode::not_now, "a critical alert cannot be shelved",
                              "claim it and rule");
    if (note.empty())
        return Status::failed(StatusCode::invalid, "shelving needs a reason", "write one");
    if (time < std::chrono::minutes{1} || time > shelve_at_most)
        return Status::failed(StatusCode::invalid, "an alert is shelved for 1 to 60 minutes",
                              "choose a time in between");
    LifeEntry entry = next_entry(id, LifeEntry::What::shelved, now);
    entry.by = by;
    entry.note = note;
    entry.until = now.wall + time;
    return entry;
}

bool before_on_the_board(const Alert& one, const Alert& other) noexcept {
    const auto key = [](const Alert& alert) {
        return std::tuple(!alert.live(), alert.condition.severity, alert.since,
                          std::string_view{alert.condition.id});
    };
    return key(one) < key(other);
}

}  // namespace courthand::server::alerts
