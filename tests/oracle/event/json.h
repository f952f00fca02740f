// Lists in JSON, written to standard output. Internal to the probe.
#pragma once

#include <cstddef>
#include <iostream>

namespace courthand::event_probe {

/// "[a,b]", each item written by `write`.
template <class Items, class Write>
void list(const Items& items, const Write& write) {
    std::cout << '[';
    std::size_t written = 0;
    for (const auto& item : items) {
        if (written++ > 0) std::cout << ',';
        write(item);
    }
    std::cout << ']';
}

/// A list of numbers.
template <class Items>
void numbers(const Items& items) {
    list(items, [](const auto& item) { std::cout << static_cast<long long>(item); });
}

}  // namespace courthand::event_probe
