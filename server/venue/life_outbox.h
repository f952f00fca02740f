// Steps of alerts that the store has not kept yet, in order and so many at most. Not thread-safe.
#pragma once

#include <cstddef>
#include <deque>
#include <span>
#include <vector>

#include "server/alerts/alert_book.h"

namespace courthand::server::venue {

class LifeOutbox {
  public:
    /// That wait for a database that is away; what comes on top is lost and logged.
    static constexpr std::size_t most_waiting = 10000;
    /// In one transaction.
    static constexpr std::size_t most_per_append = 500;

    void add(std::vector<alerts::LifeEntry> entries);
    /// The oldest, `most_per_append` of them at most.
    [[nodiscard]] std::vector<alerts::LifeEntry> first() const;
    /// Those of one alert, oldest first.
    [[nodiscard]] std::vector<alerts::LifeEntry> of(const alerts::AlertId& id) const;
    /// The store has these, as they are here.
    void kept(std::span<const alerts::LifeEntry> entries);
    /// The store has another word for this alert, or will never have one.
    void drop(const alerts::AlertId& id);
    void clear() { waiting_.clear(); }
    /// Says once how much was lost, when nothing waits any more.
    void tell_loss();

    [[nodiscard]] std::size_t size() const noexcept { return waiting_.size(); }
    [[nodiscard]] std::size_t lost() const noexcept { return lost_; }

  private:
    std::deque<alerts::LifeEntry> waiting_;
    std::size_t lost_ = 0;  ///< since the store last had everything
};

}  // namespace courthand::server::venue
