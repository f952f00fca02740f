#include "server/venue/life_outbox.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <utility>

namespace courthand::server::venue {

using alerts::AlertId;
using alerts::LifeEntry;

void LifeOutbox::add(std::vector<LifeEntry> entries) {
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

std::vector<LifeEntry> LifeOutbox::first() const {
    const std::size_t count = std::min(waiting_.size(), most_per_append);
    return {waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count)};
}

std::vector<LifeEntry> LifeOutbox::of(const AlertId& id) const {
    std::vector<LifeEntry> entries;
    for (const LifeEntry& entry : waiting_)
        if (entry.id == id) entries.push_back(entry);
    return entries;
}

// They stand here in the same order, most often at the front. One that is not here any more was
// dropped while the store kept it.
void LifeOutbox::kept(std::span<const LifeEntry> entries) {
    auto from = waiting_.begin();
    for (const LifeEntry& entry : entries)
        if (const auto found = std::find(from, waiting_.end(), entry); found != waiting_.end())
            from = waiting_.erase(found);
}

void LifeOutbox::drop(const AlertId& id) {
    std::erase_if(waiting_, [&](const LifeEntry& entry) { return entry.id == id; });
}

void LifeOutbox::tell_loss() {
    if (!waiting_.empty()) return;
    if (lost_ > 0) spdlog::error("{} steps of alerts were lost while the database was away", lost_);
    lost_ = 0;
}

}  // namespace courthand::server::venue
