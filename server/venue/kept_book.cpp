#include "server/venue/kept_book.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <utility>

namespace courthand::server::venue {

using alerts::AlertId;
using alerts::LifeEntry;
using alerts::Now;

KeptBook::KeptBook(alerts::AlertStore& store, std::size_t most)
    : store_{store}, most_{most}, book_{most} {}

Status KeptBook::load(const Now& now) {
    Result<std::vector<LifeEntry>> lives = store_.load_live();
    if (!lives.ok()) return lives.status();
    for (const auto& [id, alert] : book_.alerts()) dropped_.insert(id);
    book_ = alerts::AlertBook{most_};
    waiting_.clear();
    for (const LifeEntry& entry : *lives) book_.apply(entry, now);
    return Status::fine();
}

Status KeptBook::read_back(std::span<const AlertId> ids, const Now& now) {
    while (!ids.empty()) {
        const auto some = ids.first(std::min(ids.size(), alerts::AlertStore::most_ids_per_load));
        ids = ids.subspan(some.size());
        Result<std::vector<LifeEntry>> lives = store_.load(some);
        if (!lives.ok()) return lives.status();
        for (const LifeEntry& entry : *lives) book_.apply(entry, now);
    }
    return Status::fine();
}

void KeptBook::observe(const std::string& scope, std::vector<alerts::Condition> conditions,
                       const Now& now) {
    const bool was_full = book_.full();
    wait_to_keep(book_.observe(scope, std::move(conditions), now));
    if (book_.full() && !was_full)
        spdlog::error("there are {} alerts, no more are raised: end some of them",
                      book_.alerts().size());
}

void KeptBook::tick(const Now& now) {
    wait_to_keep(book_.tick(now));
}

void KeptBook::wait_to_keep(std::vector<LifeEntry> entries) {
    for (LifeEntry& entry : entries) {
        if (waiting_.size() < most_waiting) {
            waiting_.push_back(std::move(entry));
            continue;
        }
        if (lost_++ == 0)
            spdlog::error(
                "{} steps of alerts wait for the database and no more are held: what happens to "
                "alert {} and others meanwhile will not be kept; bring the database back",
                waiting_.size(), entry.id);
    }
}

Status KeptBook::keep(const Now& now) {
    while (!waiting_.empty()) {
        const std::size_t count = std::min(waiting_.size(), most_per_append);
        const std::vector<LifeEntry> some{waiting_.begin(),
                                          waiting_.begin() + static_cast<std::ptrdiff_t>(count)};
        Status status = store_.append(some, {});
        if (status.passing()) return status;
        if (status.ok()) {
            waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count));
        } else if (status = keep_each(now); !status.ok()) {
            return status;
        }
    }
    if (lost_ > 0) spdlog::error("{} steps of alerts were lost while the database was away", lost_);
    lost_ = 0;
    return Status::fine();
}

// Alert by alert: one that cannot be kept does not hold up the others.
Status KeptBook::keep_each(const Now& now) {
    while (!waiting_.empty()) {
        const AlertId id = waiting_.front().id;
        if (Status status = keep_alert(id, now); !status.ok()) return status;
        drop_waiting(id);
    }
    return Status::fine();
}

Status KeptBook::keep_alert(const AlertId& id, const Now& now) {
    std::vector<LifeEntry> entries;
    for (const LifeEntry& entry : waiting_)
        if (entry.id == id) entries.push_back(entry);
    Status status = store_.append(entries, {});
    if (status.code == StatusCode::conflict) return yield_to_store(id, now);
    if (status.passing()) return status;
    if (!status.ok()) spdlog::error("alert {} cannot be kept: {}", id, status.text());
    return Status::fine();
}

// Another server was first: what it kept holds, and what this one meant to keep is judged anew.
Status KeptBook::yield_to_store(const AlertId& id, const Now& now) {
    const Result<std::vector<LifeEntry>> life = store_.load({&id, 1});
    if (!life.ok()) return life.status();
    drop_waiting(id);
    book_.replace(id, *life, now);
    return Status::fine();
}

Status KeptBook::hear(const AlertId& id, std::uint32_t number, const Now& now) {
    const alerts::Alert* alert = book_.find(id);
    // One that is not in memory is read when its condition comes.
    if (!alert || alert->life >= number) return Status::fine();
    return yield_to_store(id, now);
}

void KeptBook::drop_waiting(const AlertId& id) {
    std::erase_if(waiting_, [&](const LifeEntry& entry) { return entry.id == id; });
}

KeptBook::Act KeptBook::act(const AlertId& id, const Decide& decide, const NoticesOf& notices_of,
                            const Now& now) {
    for (int attempt = 0; attempt < most_tries; ++attempt) {
        const bool looked_up = !book_.find(id);
        if (looked_up)
            if (Status status = read_back({&id, 1}, now); !status.ok()) return status;
        if (Status status = keep(now); !status.ok()) return status;
        alerts::Acted acted = decide(book_);
        if (auto* refusal = std::get_if<alerts::ActRefusal>(&acted)) {
            if (looked_up) book_.let_go(id);
            return *std::move(refusal);
        }
        const auto& entry = std::get<LifeEntry>(acted);
        Status status = store_.append_act(entry, notices_of(*book_.find(id), entry));
        if (status.ok()) {
            book_.apply(entry, now);
            return *book_.find(id);
        }
        if (status.code != StatusCode::conflict) return status;
        if (status = yield_to_store(id, now); !status.ok()) return status;
    }
    return Status::failed(StatusCode::conflict, "others act on this alert at the same moment",
                          "look at the alert and try again");
}

KeptBook::Changes KeptBook::take_changes() {
    Changes changes{book_.take_changed(), book_.take_changed_courts(),
                    book_.take_changed_matches()};
    changes.alerts.merge(std::exchange(dropped_, {}));
    return changes;
}

}  // namespace courthand::server::venue
