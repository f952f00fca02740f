// What must go well in a test, or else it ends.
#pragma once

#include <stdexcept>
#include <utility>

#include "server/store/status.h"

namespace courthand::server {

inline void throw_if_failed(const Status& status) {
    if (!status.ok()) throw std::runtime_error{status.text()};
}

template <class T>
[[nodiscard]] T value_or_throw(Result<T> result) {
    throw_if_failed(result.status());
    return *std::move(result);
}

}  // namespace courthand::server
