// Where the lives of alerts are kept. One tournament per store. Thread-safe.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "server/alerts/alert_book.h"
#include "server/store/status.h"

namespace courthand::server::alerts {

class AlertStore {
  public:
    virtual ~AlertStore() = default;
    /// All or none, durable on return. An entry that is already there (same alert and number) is
    /// left as it is: another server was first.
    [[nodiscard]] virtual Status append(std::span<const LifeEntry> entries) = 0;
    /// Every life entry, by alert and number.
    [[nodiscard]] virtual Result<std::vector<LifeEntry>> load() = 0;
};

/// The twin without a database, for unit tests.
[[nodiscard]] std::unique_ptr<AlertStore> make_memory_alert_store();

}  // namespace courthand::server::alerts
