// A map that counts what is looked at in it, so that a test can say what a change costs: one for
// each look at a key, and all there is for a walk through the whole.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>

namespace courthand::server::alerts {

/// As std::map, but that it is walked through by `all` alone. Not thread-safe, not even for
/// reading.
template <class Key, class Value>
class CountedMap {
  public:
    using Map = std::map<Key, Value>;

    [[nodiscard]] auto find(const Key& key) {
        ++looks_;
        return map_.find(key);
    }
    [[nodiscard]] auto find(const Key& key) const {
        ++looks_;
        return map_.find(key);
    }
    [[nodiscard]] auto end() noexcept { return map_.end(); }
    [[nodiscard]] auto end() const noexcept { return map_.end(); }
    [[nodiscard]] bool contains(const Key& key) const {
        ++looks_;
        return map_.contains(key);
    }
    [[nodiscard]] Value& at(const Key& key) {
        ++looks_;
        return map_.at(key);
    }
    [[nodiscard]] const Value& at(const Key& key) const {
        ++looks_;
        return map_.at(key);
    }
    auto try_emplace(const Key& key) {
        ++looks_;
        return map_.try_emplace(key);
    }
    void erase(typename Map::iterator place) { map_.erase(place); }
    void erase(const Key& key) {
        ++looks_;
        map_.erase(key);
    }
    [[nodiscard]] std::size_t size() const noexcept { return map_.size(); }

    [[nodiscard]] const Map& all() const noexcept {
        looks_ += map_.size();
        return map_;
    }
    [[nodiscard]] std::uint64_t looks() const noexcept { return looks_; }

  private:
    Map map_;
    mutable std::uint64_t looks_ = 0;
};

}  // namespace courthand::server::alerts
