#include <map>
#include <mutex>
#include <utility>

#include "server/alerts/alert_store.h"

namespace courthand::server::alerts {

namespace {

class MemoryAlertStore final : public AlertStore {
  public:
    Status append(std::span<const LifeEntry> entries) override {
        const std::scoped_lock lock{mutex_};
        for (const LifeEntry& entry : entries)
            entries_.try_emplace({entry.id, entry.number}, entry);
        return Status::fine();
    }

    Result<std::vector<LifeEntry>> load() override {
        const std::scoped_lock lock{mutex_};
        std::vector<LifeEntry> all;
        for (const auto& [key, entry] : entries_) all.push_back(entry);
        return all;
    }

  private:
    std::mutex mutex_;
    std::map<std::pair<AlertId, std::uint32_t>, LifeEntry> entries_;
};

}  // namespace

std::unique_ptr<AlertStore> make_memory_alert_store() {
    return std::make_unique<MemoryAlertStore>();
}

}  // namespace courthand::server::alerts
