#include <algorithm>
#include <mutex>

#include "server/audit/audit_store.h"

namespace courthand::server::audit {

namespace {

class MemoryAuditStore final : public AuditStore {
  public:
    Status add(const AuditEntry& entry) override {
        const std::scoped_lock lock{mutex_};
        const auto same = [&](const AuditEntry& kept) { return kept.id == entry.id; };
        if (!entry.id.nil() && std::any_of(entries_.begin(), entries_.end(), same))
            return Status::fine();
        entries_.push_back(entry);
        entries_.back().number = entries_.size();
        return Status::fine();
    }

    Result<std::vector<AuditEntry>> list(std::uint64_t before, std::size_t most) override {
        const std::scoped_lock lock{mutex_};
        std::vector<AuditEntry> found;
        for (auto entry = entries_.rbegin(); entry != entries_.rend() && found.size() < most;
             ++entry)
            if (before == 0 || entry->number < before) found.push_back(*entry);
        return found;
    }

  private:
    std::mutex mutex_;
    std::vector<AuditEntry> entries_;
};

}  // namespace

std::unique_ptr<AuditStore> make_memory_audit_store() {
    return std::make_unique<MemoryAuditStore>();
}

}  // namespace courthand::server::audit
