// The PostgreSQL twin keeps the promises of the store of a tournament's record.
#include "server/tournament/postgres/pg_fact_store.h"

#include "fact_store_contract.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/test_database.h"

namespace courthand::server::tournament {
namespace {

class PgTwin final : public FactStoreTwin {
  public:
    PgTwin() { (void)value_or_throw(postgres::migrate(connections_)); }
    FactStore& facts() override { return facts_; }
    MatchStore& feed() override { return feed_; }

  private:
    server::testing::TestDatabase database_;
    postgres::Database connections_{database_.dsn()};
    postgres::PgMatchStore feed_{connections_};
    PgFactStore facts_{connections_, feed_};
};

}  // namespace

std::unique_ptr<FactStoreTwin> make_fact_twin() {
    return std::make_unique<PgTwin>();
}

}  // namespace courthand::server::tournament
