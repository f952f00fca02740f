// The stores of a venue in PostgreSQL keep the promises of theirs.
#include "server/main/pg_stores.h"

#include "server/store/postgres/migrations.h"
#include "server/testing/or_throw.h"
#include "server/testing/test_database.h"
#include "stores_contract_alerts.h"
#include "stores_contract_enrolment.h"
#include "stores_contract_venue.h"

namespace courthand::server::testing {
namespace {

class PgTwin final : public StoresTwin {
  public:
    PgTwin() {
        (void)value_or_throw(postgres::migrate(foundation_.database));
        cup_ = value_or_throw(
                   foundation_.matches.create_tournament(TournamentId{new_uuid()}, "Harbour Cup"))
                   .id;
        kept_.emplace(foundation_, cup_);
    }
    Stores stores() override { return kept_->stores(); }
    TournamentId tournament() const override { return cup_; }

  private:
    TestDatabase database_;
    Foundation foundation_{database_.dsn()};
    TournamentId cup_;
    std::optional<PgStores> kept_;
};

}  // namespace

std::unique_ptr<StoresTwin> make_stores_twin() {
    return std::make_unique<PgTwin>();
}

}  // namespace courthand::server::testing
