#include "server/alerts/alert_book.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace courthand::server::alerts {

namespace {

constexpr std::string_view record_corrected = "the record was corrected";

bool latched(const Condition& condition) {
    return row_of(condition.kind).clears != Clears::by_itself;
}

bool chatters(const Alert& alert) {
    return alert.raised.size() >= chatter_raises;
}

std::chrono::seconds clears_after(const Alert& alert) {
    return chatters(alert) ? chatter_clears : row_of(alert.condition.kind).clear_after;
}

std::chrono::seconds raises_after(const Condition& condition) {
    return condition.pressing ? std::chrono::seconds{0} : row_of(condition.kind).raise_after;
}

}  // namespace

LifeEntry AlertBook::next_entry(const AlertId& id, LifeEntry::What what, Instant now) const {
    const Alert* alert = find(id);
    LifeEntry entry;
    entry.id = id;
    entry.number = alert ? alert->life + 1 : 1;
    entry.what = what;
    entry.at = now;
    return entry;
}

void AlertBook::keep(LifeEntry entry, std::vector<LifeEntry>& out) {
    apply(entry);
    out.push_back(std::move(entry));
}

std::vector<LifeEntry> AlertBook::observe(const std::string& scope,
                                          std::vector<Condition> conditions, Instant now) {
    std::set<AlertId> told;
    for (Condition& condition : conditions) {
        told.insert(condition.id);
        const auto [place, added] = holding_.try_emplace(condition.id);
        if (added) place->second.since = now;
        place->second.scope = scope;
        place->second.condition = std::move(condition);
    }
    std::erase_if(holding_, [&](const auto& item) {
        return item.second.scope == scope && !told.contains(item.first);
    });
    return settle(now);
}

std::vector<LifeEntry> AlertBook::tick(Instant now) {
    return settle(now);
}

std::vector<LifeEntry> AlertBook::settle(Instant now) {
    std::vector<LifeEntry> out;
    for (const auto& [id, holding] : holding_) settle_holding(id, holding, now, out);
    for (auto& [id, alert] : alerts_) settle_alert(id, alert, now, out);
    return out;
}

// A condition that holds: raise its alert, or show what is new about it.
void AlertBook::settle_holding(const AlertId& id, const Holding& holding, Instant now,
                               std::vector<LifeEntry>& out) {
    const auto known = alerts_.find(id);
    const bool raise = known == alerts_.end() ? alerts_.size() < most_alerts
                                              : !known->second.live() && known->second.may_reopen;
    if (raise) {
        if (now - holding.since < raises_after(holding.condition)) return;
        LifeEntry entry = next_entry(id, LifeEntry::What::opened, now);
        entry.condition = holding.condition;
        keep(std::move(entry), out);
    } else if (known == alerts_.end()) {
        return;
    }
    Alert& alert = alerts_.at(id);
    alert.gone_since.reset();
    if (!alert.live()) return;
    if (alert.condition != holding.condition) {
        alert.condition = holding.condition;
        changed_.insert(id);
    }
    if (holding.condition.outcome == Outcome::stands) return;
    // The table has recorded a referee's ruling: the person whose task it was has acted.
    LifeEntry entry = next_entry(id, LifeEntry::What::ruled, now);
    entry.by = "table";
    entry.accepted = holding.condition.outcome == Outcome::accepted;
    keep(std::move(entry), out);
}

// An alert whose condition no longer holds, or whose time on the shelf is over.
void AlertBook::settle_alert(const AlertId& id, Alert& alert, Instant now,
                             std::vector<LifeEntry>& out) {
    if (!holding_.contains(id)) {
        if (!alert.gone_since) alert.gone_since = now;
        if (!alert.live()) {
            // A fault that was ruled stays ruled; a condition may come back as a new alert.
            alert.may_reopen = !latched(alert.condition);
        } else if (now - *alert.gone_since >= clears_after(alert)) {
            LifeEntry entry = next_entry(id, LifeEntry::What::cleared, now);
            // A latched fault leaves the record only by a correction.
            if (latched(alert.condition)) entry.note = record_corrected;
            keep(std::move(entry), out);
            alert.may_reopen = true;
            return;
        }
    }
    if (alert.state == State::shelved && alert.shelved_until && now >= *alert.shelved_until)
        keep(next_entry(id, LifeEntry::What::returned, now), out);
}

void AlertBook::apply(const LifeEntry& entry) {
    Alert& alert = alerts_[entry.id];
    alert.life = entry.number;
    changed_.insert(entry.id);
    switch (entry.what) {
        case LifeEntry::What::opened: {
            std::vector<Instant> raised = std::move(alert.raised);
            std::erase_if(raised, [&](Instant at) { return entry.at - at >= chatter_window; });
            raised.push_back(entry.at);
            alert = Alert{};
            alert.life = entry.number;
            alert.since = entry.at;
            alert.raised = std::move(raised);
            if (entry.condition) alert.condition = *entry.condition;
            break;
        }
        case LifeEntry::What::acknowledged:
            alert.acknowledged = true;
            if (row_of(alert.condition.kind).clears == Clears::when_seen)
                alert.state = State::cleared;
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
            break;
        case LifeEntry::What::shelved:
            alert.state = State::shelved;
            alert.note = entry.note;
            alert.shelved_until = entry.until;
            break;
        case LifeEntry::What::returned:
            alert.state = alert.claimed_by.empty() ? State::open : State::claimed;
            alert.note.clear();
            alert.shelved_until.reset();
            break;
    }
}

const Alert* AlertBook::find(const AlertId& id) const noexcept {
    const auto found = alerts_.find(id);
    return found == alerts_.end() ? nullptr : &found->second;
}

std::set<AlertId> AlertBook::take_changed() {
    return std::exchange(changed_, {});
}

std::variant<const Alert*, ActRefusal> AlertBook::to_act_on(const AlertId& id,
                                                            const std::string& by,
                                                            const std::string& note) const {
    if (by.empty() || by.size() > longest_name)
        return ActRefusal{ActRefusal::Kind::bad_request, "it does not say who acts",
                          "give a name or function of up to 64 bytes"};
    if (note.size() > longest_note)
        return ActRefusal{ActRefusal::Kind::bad_request, "the note is too long",
                          "keep it within 500 bytes"};
    const Alert* alert = find(id);
    if (!alert)
        return ActRefusal{ActRefusal::Kind::unknown, "there is no such alert",
                          "refresh the list of alerts"};
    if (!alert->live())
        return ActRefusal{ActRefusal::Kind::ended, "this alert has ended", "nothing is left to do"};
    return alert;
}

Acted AlertBook::claim(const AlertId& id, const std::string& by, Instant now) const {
    const auto found = to_act_on(id, by, {});
    if (const auto* refusal = std::get_if<ActRefusal>(&found)) return *refusal;
    const Alert& alert = *std::get<const Alert*>(found);
    if (!alert.claimed_by.empty() && alert.claimed_by != by)
        return ActRefusal{ActRefusal::Kind::not_allowed, alert.claimed_by + " is on the way",
                          "speak with " + alert.claimed_by};
    LifeEntry entry = next_entry(id, LifeEntry::What::claimed, now);
    entry.by = by;
    return entry;
}

Acted AlertBook::acknowledge(const AlertId& id, const std::string& by, Instant now) const {
    const auto found = to_act_on(id, by, {});
    if (const auto* refusal = std::get_if<ActRefusal>(&found)) return *refusal;
    LifeEntry entry = next_entry(id, LifeEntry::What::acknowledged, now);
    entry.by = by;
    return entry;
}

Acted AlertBook::rule(const AlertId& id, bool accept, const std::string& note,
                      const std::string& by, Instant now) const {
    const auto found = to_act_on(id, by, note);
    if (const auto* refusal = std::get_if<ActRefusal>(&found)) return *refusal;
    LifeEntry entry = next_entry(id, LifeEntry::What::ruled, now);
    entry.by = by;
    entry.note = note;
    entry.accepted = accept;
    return entry;
}

Acted AlertBook::shelve(const AlertId& id, std::chrono::minutes time, const std::string& note,
                        const std::string& by, Instant now) const {
    const auto found = to_act_on(id, by, note);
    if (const auto* refusal = std::get_if<ActRefusal>(&found)) return *refusal;
    const Alert& alert = *std::get<const Alert*>(found);
    if (alert.condition.severity == Severity::critical)
        return ActRefusal{ActRefusal::Kind::not_allowed, "a critical alert cannot be shelved",
                          "claim it and rule"};
    if (note.empty())
        return ActRefusal{ActRefusal::Kind::bad_request, "shelving needs a reason", "write one"};
    if (time < std::chrono::minutes{1} || time > shelve_at_most)
        return ActRefusal{ActRefusal::Kind::bad_request, "an alert is shelved for 1 to 60 minutes",
                          "choose a time in between"};
    LifeEntry entry = next_entry(id, LifeEntry::What::shelved, now);
    entry.by = by;
    entry.note = note;
    entry.until = now + time;
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
