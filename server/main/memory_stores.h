// The stores of one tournament in memory: a whole venue in one process, without a database. Nothing
// is durable; what is kept lives as long as this does, also while servers on it come and go.
#pragma once

#include <memory>

#include "server/main/stores.h"
#include "server/store/memory_match_store.h"
#include "server/tournament/memory_fact_store.h"

namespace courthand::server {

class MemoryStores {
  public:
    using Clock = venue::MemoryHeardStore::Clock;
    explicit MemoryStores(const std::string& name, Clock clock = alerts::system_now);
    MemoryStores(const MemoryStores&) = delete;
    MemoryStores& operator=(const MemoryStores&) = delete;

    [[nodiscard]] const Tournament& tournament() const noexcept { return tournament_; }
    [[nodiscard]] Stores stores();

    MemoryMatchStore matches;
    std::unique_ptr<auth::EnrolmentStore> enrolments = auth::make_memory_enrolment_store();
    std::unique_ptr<audit::AuditStore> audit = audit::make_memory_audit_store();
    tournament::MemoryFactStore facts{matches};
    alerts::MemoryAlertStore alerts;
    venue::MemoryRefusalStore refused;
    venue::MemoryHeardStore heard;

  private:
    void note(const EpochClaim& claim);
    [[nodiscard]] bool settled(const Refusals::Refusal& refusal);

    Tournament tournament_;
};

}  // namespace courthand::server
