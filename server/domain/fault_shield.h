// Around what a thread does again and again: what it throws costs that round and one line of the
// log, never the server; the rounds after it that throw, too, are not told again.
//
// One thread at a time.
#pragma once

#include <utility>

#include "server/domain/fault_log.h"

namespace courthand::server {

class FaultShield {
  public:
    /// `where`: the work, in words; a literal.
    explicit FaultShield(const char* where) : where_{where} {}

    /// False when `body` threw.
    template <class Body>
    bool run(const Body& body) noexcept {
        try {
            body();
            failing_ = false;
            return true;
        } catch (...) {
            if (!std::exchange(failing_, true)) log_current_exception(where_);
            return false;
        }
    }

  private:
    const char* where_;
    bool failing_ = false;
};

}  // namespace courthand::server
