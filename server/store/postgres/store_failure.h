// Ends a transaction with a status of its own: thrown inside what `Database` runs, which answers
// it.
#pragma once

#include <stdexcept>
#include <utility>

#include "server/store/status.h"

namespace courthand::server::postgres {

class StoreFailure : public std::runtime_error {
  public:
    explicit StoreFailure(Status status)
        : std::runtime_error{status.text()}, status_{std::move(status)} {}
    [[nodiscard]] const Status& status() const noexcept { return status_; }

  private:
    Status status_;
};

}  // namespace courthand::server::postgres
