// What every twin of the stores of a venue promises, beside that of matches. Each test program
// gives `StoresTwin` a way to make them.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "server/main/stores.h"

namespace courthand::server::testing {

/// Made anew for each test; owns whatever the stores need.
class StoresTwin {
  public:
    virtual ~StoresTwin() = default;
    virtual Stores stores() = 0;
    virtual TournamentId tournament() const = 0;
};
[[nodiscard]] std::unique_ptr<StoresTwin> make_stores_twin();

class VenueStores : public ::testing::Test {
  protected:
    std::unique_ptr<StoresTwin> twin_ = make_stores_twin();
    Stores stores_ = twin_->stores();
};

}  // namespace courthand::server::testing
