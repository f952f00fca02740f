// The stores of a venue in memory keep the promises of theirs.
#include "server/main/memory_stores.h"
#include "stores_contract_alerts.h"
#include "stores_contract_enrolment.h"
#include "stores_contract_venue.h"

namespace courthand::server::testing {
namespace {

class MemoryTwin final : public StoresTwin {
  public:
    Stores stores() override { return kept_.stores(); }
    TournamentId tournament() const override { return kept_.tournament().id; }

  private:
    MemoryStores kept_{"Harbour Cup"};
};

}  // namespace

std::unique_ptr<StoresTwin> make_stores_twin() {
    return std::make_unique<MemoryTwin>();
}

}  // namespace courthand::server::testing
