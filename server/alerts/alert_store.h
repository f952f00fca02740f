// Where the lives of alerts are kept. One tournament per store. Thread-safe.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <span>
#include <utility>
#include <vector>

#include "server/alerts/alert_book.h"
#include "server/store/match_store.h"
#include "server/store/status.h"

namespace courthand::server::alerts {

class AlertStore {
  public:
    /// Ids in one `load`: what one question to the database can carry easily.
    static constexpr std::size_t most_ids_per_load = 512;

    virtual ~AlertStore() = default;
    /// All or none, durable on return, and the notices have their place in the feed of the match
    /// in the same transaction. What is there already is left as it is, so a retry adds nothing.
    /// `conflict`: another server's entry has that number of the alert; nothing was kept.
    [[nodiscard]] virtual Status append(std::span<const LifeEntry> entries,
                                        std::span<const FeedNotice> notices) = 0;
    /// The same for what a person did: the database keeps who it was with it.
    [[nodiscard]] virtual Status append_act(const LifeEntry& entry,
                                            std::span<const FeedNotice> notices) {
        return append({&entry, 1}, notices);
    }
    /// Every life entry of the alerts that have not ended, by alert and number.
    [[nodiscard]] virtual Result<std::vector<LifeEntry>> load_live() = 0;
    /// Every life entry of these alerts, by alert and number; nothing for an unknown one.
    [[nodiscard]] virtual Result<std::vector<LifeEntry>> load(std::span<const AlertId> ids) = 0;
};

/// The twin without a database.
class MemoryAlertStore final : public AlertStore {
  public:
    /// `feed`: where notices have their place, together with the steps they were given with. It
    /// may fail: then nothing is kept. Empty: they are held here only.
    using Feed = std::function<Status(const FeedNotice&)>;
    explicit MemoryAlertStore(Feed feed = {}) : feed_{std::move(feed)} {}

    Status append(std::span<const LifeEntry> entries, std::span<const FeedNotice> notices) override;
    Result<std::vector<LifeEntry>> load_live() override;
    Result<std::vector<LifeEntry>> load(std::span<const AlertId> ids) override;

    /// From now on every call fails with this status; an ok status ends it.
    void fail_with(Status status);
    /// Put back from an empty backup.
    void forget_all();
    /// Everything kept, by alert and number.
    [[nodiscard]] std::vector<LifeEntry> lives() const;
    /// What was given to the feed, in order.
    [[nodiscard]] std::vector<FeedNotice> notices() const;
    /// Life entries that were handed out by `load` and `load_live` so far.
    [[nodiscard]] std::size_t loaded() const;

  private:
    Feed feed_;
    mutable std::mutex mutex_;
    Status failure_;
    std::map<AlertId, std::map<std::uint32_t, LifeEntry>> lives_;
    std::vector<FeedNotice> notices_;
    std::size_t loaded_ = 0;
};

}  // namespace courthand::server::alerts
