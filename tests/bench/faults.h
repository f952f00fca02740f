// What went wrong while the load ran, counted by kind. Thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace courthand::bench {

class Faults {
  public:
    /// Kinds that are told apart; the rest counts together.
    static constexpr std::size_t most_kinds = 40;

    void add(const std::string& kind) {
        const std::scoped_lock lock{mutex_};
        const bool known = counts_.contains(kind) || counts_.size() < most_kinds;
        ++counts_[known ? kind : "others"];
    }
    [[nodiscard]] std::map<std::string, std::uint64_t> counts() const {
        const std::scoped_lock lock{mutex_};
        return counts_;
    }
    [[nodiscard]] std::uint64_t total() const {
        std::uint64_t sum = 0;
        for (const auto& [kind, count] : counts()) sum += count;
        return sum;
    }

  private:
    mutable std::mutex mutex_;
    std::map<std::string, std::uint64_t> counts_;
};

}  // namespace courthand::bench
