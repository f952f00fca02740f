#include "server/main/health.h"

#include <utility>

#include "server/main/log.h"

namespace courthand::server {

/// Needs the lock.
void Health::show() const {
    if (show_) show_(readable_ && keeps_);
}

void Health::show_at(Show show) {
    const std::scoped_lock lock{mutex_};
    show_ = std::move(show);
    this->show();
}

void Health::note_database(const Status& status) {
    if (status.ok())
        log(LogLevel::info, "database-back");
    else
        log(LogLevel::warn, "database-away", "why", status.message);
    const std::scoped_lock lock{mutex_};
    readable_ = status.ok();
    show();
}

void Health::note_append(std::chrono::milliseconds keeps_nothing_for) {
    const std::scoped_lock lock{mutex_};
    const bool keeps = keeps_nothing_for < longest_append;
    if (std::exchange(keeps_, keeps) == keeps) return;
    if (keeps)
        log(LogLevel::info, "append-goes-on");
    else
        log(LogLevel::error, "append-waits", "why",
            "the database keeps nothing; look at its disk, its locks and its synchronous standby");
    show();
}

}  // namespace courthand::server
