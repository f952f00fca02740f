// The twin in memory keeps the promises of the store of a tournament's record.
#include "server/tournament/memory_fact_store.h"

#include "fact_store_contract.h"
#include "server/store/memory_match_store.h"

namespace courthand::server::tournament {
namespace {

class MemoryTwin final : public FactStoreTwin {
  public:
    FactStore& facts() override { return facts_; }
    MatchStore& feed() override { return feed_; }

  private:
    MemoryMatchStore feed_;
    MemoryFactStore facts_{feed_};
};

}  // namespace

std::unique_ptr<FactStoreTwin> make_fact_twin() {
    return std::make_unique<MemoryTwin>();
}

}  // namespace courthand::server::tournament
