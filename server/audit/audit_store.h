// Who did what, and who was turned away: kept for ever, readable at the desk. One tournament per
// store. Thread-safe.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "server/auth/caller.h"
#include "server/store/status.h"

namespace courthand::server::audit {

struct AuditEntry {
    std::uint64_t number = 0;         ///< given by the store, from 1
    auth::Instant at{};               ///< server's clock
    std::optional<auth::Caller> who;  ///< as the certificate says; nothing: it had none
    std::string act;                  ///< word, see courthand.v1.AuditLine.act
    std::string subject;              ///< up to 128 bytes
    std::string detail;               ///< up to 500 bytes
    bool refused = false;
    /// A row is kept once, however often it is handed over: a store that does not confirm may have
    /// kept it. Nil: always a new one.
    Uuid id{};
};

/// While it lives, the act that its thread does in the database keeps the entry in its own
/// transaction.
class RowOfAct {
  public:
    virtual ~RowOfAct() = default;
    /// True when the act, now that it has been done, has kept the entry.
    [[nodiscard]] virtual bool kept() const = 0;
};

class AuditStore {
  public:
    virtual ~AuditStore() = default;
    /// Durable on return; fine also when a row of this id is there already.
    [[nodiscard]] virtual Status add(const AuditEntry& entry) = 0;
    /// For the act that follows on this thread; null when the store cannot.
    [[nodiscard]] virtual std::unique_ptr<RowOfAct> with_act(const AuditEntry&) { return nullptr; }
    /// Newest first, only numbers below `before` (0: from the newest), `most` at most.
    [[nodiscard]] virtual Result<std::vector<AuditEntry>> list(std::uint64_t before,
                                                               std::size_t most) = 0;
};

/// The twin without a database, for unit tests.
[[nodiscard]] std::unique_ptr<AuditStore> make_memory_audit_store();

}  // namespace courthand::server::audit
