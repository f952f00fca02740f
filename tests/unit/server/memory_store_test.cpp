// The twin in memory keeps the store's promises.
#include "server/store/memory_match_store.h"
#include "store_contract.h"

namespace courthand::server::testing {
namespace {

class MemoryTwin final : public StoreTwin {
  public:
    MatchStore& store() override { return store_; }
    void renew_generation(TournamentId tournament) override { store_.renew_generation(tournament); }

  private:
    MemoryMatchStore store_;
};

}  // namespace

std::unique_ptr<StoreTwin> make_twin() {
    return std::make_unique<MemoryTwin>();
}

}  // namespace courthand::server::testing
