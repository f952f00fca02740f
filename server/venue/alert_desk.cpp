#include "server/venue/alert_desk.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <utility>

#include "server/venue/alert_message.h"

namespace courthand::server::venue {

using alerts::AlertId;
using alerts::LifeEntry;
using alerts::Now;

AlertDesk::AlertDesk(alerts::AlertStore& store, Board& board, std::size_t most)
    : store_{store}, board_{board}, most_{most}, book_{most} {}

Status AlertDesk::load(const Now& now) {
    const Result<std::vector<LifeEntry>> lives = store_.load_live();
    if (!lives.ok()) return lives.status();
    const std::scoped_lock lock{mutex_};
    for (const auto& [id, alert] : book_.alerts()) dropped_.insert(id);
    book_ = alerts::AlertBook{most_};
    outbox_.clear();
    for (const LifeEntry& entry : *lives) book_.apply(entry, now);
    ++moves_;
    return Status::fine();
}

std::vector<AlertId> AlertDesk::unknown(std::span<const alerts::Condition> conditions) const {
    const std::scoped_lock lock{mutex_};
    return book_.unknown(conditions);
}

Status AlertDesk::read_back(std::span<const AlertId> ids, const Now& now) {
    while (!ids.empty()) {
        const auto some = ids.first(std::min(ids.size(), alerts::AlertStore::most_ids_per_load));
        ids = ids.subspan(some.size());
        const Result<std::vector<LifeEntry>> lives = store_.load(some);
        if (!lives.ok()) return lives.status();
        const std::scoped_lock lock{mutex_};
        // What somebody else has read back meanwhile may have moved on since.
        std::set<AlertId> known;
        for (const AlertId& id : some)
            if (book_.find(id) != nullptr) known.insert(id);
        for (const LifeEntry& entry : *lives)
            if (!known.contains(entry.id)) book_.apply(entry, now);
    }
    return Status::fine();
}

void AlertDesk::observe(const std::string& scope, std::vector<alerts::Condition> conditions,
                        const Now& now) {
    const std::scoped_lock lock{mutex_};
    const bool was_full = book_.full();
    outbox_.add(book_.observe(scope, std::move(conditions), now));
    if (book_.full() && !was_full)
        spdlog::error("there are {} alerts, no more are raised: end some of them", book_.size());
}

void AlertDesk::tick(const Now& now) {
    const std::scoped_lock lock{mutex_};
    outbox_.add(book_.tick(now));
}

Status AlertDesk::keep(const Now& now) {
    while (true) {
        std::vector<LifeEntry> some;
        {
            const std::scoped_lock lock{mutex_};
            some = outbox_.first();
            if (some.empty()) outbox_.tell_loss();
        }
        if (some.empty()) return Status::fine();
        Status status = store_.append(some, {});
        if (status.passing()) return status;
        if (status.ok()) {
            const std::scoped_lock lock{mutex_};
            outbox_.kept(some);
        } else if (status = keep_each(now); !status.ok()) {
            return status;
        }
    }
}

// Alert by alert: one that cannot be kept does not hold up the others.
Status AlertDesk::keep_each(const Now& now) {
    while (true) {
        AlertId id;
        {
            const std::scoped_lock lock{mutex_};
            if (outbox_.size() == 0) return Status::fine();
            id = outbox_.first().front().id;
        }
        if (Status status = keep_alert(id, now); !status.ok()) return status;
    }
}

Status AlertDesk::keep_alert(const AlertId& id, const Now& now) {
    std::vector<LifeEntry> entries;
    {
        const std::scoped_lock lock{mutex_};
        entries = outbox_.of(id);
    }
    Status status = store_.append(entries, {});
    if (status.code == StatusCode::conflict) return yield_to_store(id, now);
    if (status.passing()) return status;
    if (!status.ok()) spdlog::error("alert {} cannot be kept: {}", id, status.text());
    const std::scoped_lock lock{mutex_};
    outbox_.kept(entries);
    return Status::fine();
}

std::uint64_t AlertDesk::moves() const {
    const std::scoped_lock lock{mutex_};
    return moves_;
}

// Another server was first: what it kept holds, and what this one meant to keep is judged anew.
Status AlertDesk::yield_to_store(const AlertId& id, const Now& now) {
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        const std::uint64_t before = moves();
        const Result<std::vector<LifeEntry>> life = store_.load({&id, 1});
        if (!life.ok()) return life.status();
        const std::scoped_lock lock{mutex_};
        // What was read may be older than what came into the book meanwhile.
        if (moves_ != before) continue;
        outbox_.drop(id);
        book_.replace(id, *life, now);
        ++moves_;
        return Status::fine();
    }
    return Status::failed(StatusCode::exhausted, "too many act on alerts at this moment",
                          "look at the alert and try again");
}

Status AlertDesk::hear(const AlertId& id, std::uint32_t number, const Now& now) {
    {
        const std::scoped_lock lock{mutex_};
        const alerts::Alert* alert = book_.find(id);
        // One that is not in memory is read when its condition comes.
        if (!alert || alert->life >= number) return Status::fine();
    }
    return yield_to_store(id, now);
}

bool AlertDesk::close(const std::string& scope, MatchId match) {
    const std::scoped_lock lock{mutex_};
    return book_.close(scope, match);
}

std::vector<alerts::Condition> AlertDesk::live() const {
    const std::scoped_lock lock{mutex_};
    std::vector<alerts::Condition> all;
    for (const auto& [id, alert] : book_.alerts())
        if (alert.live()) all.push_back(alert.condition);
    return all;
}

alerts::CourtAlerts AlertDesk::of_court(std::uint32_t court, MatchId match) const {
    const std::scoped_lock lock{mutex_};
    return book_.of_court(court, match);
}

std::uint32_t AlertDesk::open_alerts(MatchId match) const {
    const std::scoped_lock lock{mutex_};
    return book_.open_alerts(match);
}

bool AlertDesk::full() const {
    const std::scoped_lock lock{mutex_};
    return book_.full();
}

bool AlertDesk::knows(const AlertId& id) const {
    const std::scoped_lock lock{mutex_};
    return book_.find(id) != nullptr;
}

std::size_t AlertDesk::size() const {
    const std::scoped_lock lock{mutex_};
    return book_.size();
}

std::size_t AlertDesk::waiting() const {
    const std::scoped_lock lock{mutex_};
    return outbox_.size();
}

// The board is changed under the lock, so that no older look of an alert comes after a newer one.
void AlertDesk::show() {
    const std::scoped_lock lock{mutex_};
    std::set<AlertId> changed = book_.take_changed();
    changed.merge(std::exchange(dropped_, {}));
    for (const AlertId& id : changed) show_alert(id);
    places_.courts.merge(book_.take_changed_courts());
    places_.matches.merge(book_.take_changed_matches());
    book_.trim();
}

/// Needs the lock.
void AlertDesk::show_alert(const AlertId& id) {
    if (const alerts::Alert* alert = book_.find(id)) {
        board_.put(to_message(*alert));
    } else if (auto shown = board_.alert(id); shown && !ended(*shown)) {
        // Another server's word took its place, and it knows of no such alert.
        shown->set_state(v1::ALERT_STATE_CLEARED);
        board_.put(*std::move(shown));
    }
}

AlertDesk::Places AlertDesk::take_places() {
    const std::scoped_lock lock{mutex_};
    return std::exchange(places_, {});
}

}  // namespace courthand::server::venue
