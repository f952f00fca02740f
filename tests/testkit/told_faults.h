// The faults that the server tells its log while a test looks.
#pragma once

#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "server/domain/fault_log.h"

namespace courthand::server::testing {

/// Takes the place of the fault log while it lives: stands before whatever may tell, and outlives
/// it. Thread-safe.
class ToldFaults {
  public:
    ToldFaults() {
        set_fault_log([this](std::string_view, std::string_view what) {
            const std::scoped_lock lock{mutex_};
            said_.emplace_back(what);
        });
    }
    ~ToldFaults() { set_fault_log({}); }
    ToldFaults(const ToldFaults&) = delete;
    ToldFaults& operator=(const ToldFaults&) = delete;

    /// What went wrong, in words, in the order of telling.
    [[nodiscard]] std::vector<std::string> said() const {
        const std::scoped_lock lock{mutex_};
        return said_;
    }
    [[nodiscard]] std::size_t count() const {
        const std::scoped_lock lock{mutex_};
        return said_.size();
    }

  private:
    mutable std::mutex mutex_;
    std::vector<std::string> said_;
};

}  // namespace courthand::server::testing
