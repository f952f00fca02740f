#include "server/service/stream_registry.h"

namespace courthand::server::service {

StreamRegistry::Token StreamRegistry::add(End end) {
    const std::lock_guard lock{mutex_};
    if (stopping_) return 0;
    streams_[++last_] = std::move(end);
    return last_;
}

void StreamRegistry::remove(Token token) {
    const std::lock_guard lock{mutex_};
    streams_.erase(token);
}

void StreamRegistry::end_all() {
    const std::lock_guard lock{mutex_};
    stopping_ = true;
    for (const auto& [token, end] : streams_) end();
}

}  // namespace courthand::server::service
