#include <algorithm>
#include <utility>

#include "server/alerts/alert_store.h"

namespace courthand::server::alerts {

namespace {

Status taken() {
    return Status::failed(StatusCode::conflict, "another server was first with this alert",
                          "look at the alert again");
}

void add_all(const std::map<std::uint32_t, LifeEntry>& life, std::vector<LifeEntry>& out) {
    for (const auto& [number, entry] : life) out.push_back(entry);
}

}  // namespace

Status MemoryAlertStore::append(std::span<const LifeEntry> entries,
                                std::span<const FeedNotice> notices) {
    const std::scoped_lock lock{mutex_};
    if (!failure_.ok()) return failure_;
    for (const LifeEntry& entry : entries) {
        const auto life = lives_.find(entry.id);
        if (life == lives_.end()) continue;
        const auto known = life->second.find(entry.number);
        if (known != life->second.end() && known->second != entry) return taken();
    }
    for (const FeedNotice& notice : notices)
        if (feed_)
            if (Status published = feed_(notice); !published.ok()) return published;
    for (const LifeEntry& entry : entries) lives_[entry.id].try_emplace(entry.number, entry);
    for (const FeedNotice& notice : notices)
        if (std::none_of(notices_.begin(), notices_.end(),
                         [&](const FeedNotice& old) { return old.id == notice.id; }))
            notices_.push_back(notice);
    return Status::fine();
}

Result<std::vector<LifeEntry>> MemoryAlertStore::load_live() {
    const std::scoped_lock lock{mutex_};
    if (!failure_.ok()) return failure_;
    std::vector<LifeEntry> out;
    for (const auto& [id, life] : lives_)
        if (!life.rbegin()->second.ends) add_all(life, out);
    loaded_ += out.size();
    return out;
}

Result<std::vector<LifeEntry>> MemoryAlertStore::load(std::span<const AlertId> ids) {
    const std::scoped_lock lock{mutex_};
    if (!failure_.ok()) return failure_;
    std::vector<LifeEntry> out;
    for (const AlertId& id : ids)
        if (const auto life = lives_.find(id); life != lives_.end()) add_all(life->second, out);
    loaded_ += out.size();
    return out;
}

void MemoryAlertStore::fail_with(Status status) {
    const std::scoped_lock lock{mutex_};
    failure_ = std::move(status);
}

void MemoryAlertStore::forget_all() {
    const std::scoped_lock lock{mutex_};
    lives_.clear();
    notices_.clear();
}

std::vector<LifeEntry> MemoryAlertStore::lives() const {
    const std::scoped_lock lock{mutex_};
    std::vector<LifeEntry> all;
    for (const auto& [id, life] : lives_) add_all(life, all);
    return all;
}

std::vector<FeedNotice> MemoryAlertStore::notices() const {
    const std::scoped_lock lock{mutex_};
    return notices_;
}

std::size_t MemoryAlertStore::loaded() const {
    const std::scoped_lock lock{mutex_};
    return loaded_;
}

}  // namespace courthand::server::alerts
