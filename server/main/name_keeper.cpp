#include "server/main/name_keeper.h"

#include <fmt/format.h>

#include <utility>

#include "server/main/log.h"

namespace courthand::server {

event::Date day_of(std::chrono::system_clock::time_point moment) noexcept {
    const auto days = std::chrono::floor<std::chrono::days>(moment).time_since_epoch();
    return {static_cast<std::int32_t>(days.count())};
}

audit::AuditEntry erased_row(std::chrono::system_clock::time_point now, std::string subject,
                             std::string detail) {
    audit::AuditEntry row;
    row.at = now;
    row.act = "erase-names";
    row.subject = std::move(subject);
    row.detail = std::move(detail);
    return row;
}

void NameKeeper::look(Clock::time_point now) {
    if (days_ == 0 || now < next_) return;
    const auto row = parts_.audit.with_act(
        erased_row(now, "all persons", fmt::format("kept for {} days after the event", days_)));
    const auto erased = tournament::erase_names_due(parts_.facts, tournament_, day_of(now), days_);
    next_ = now + (erased.ok() ? std::chrono::duration_cast<Clock::duration>(looks_every)
                               : std::chrono::duration_cast<Clock::duration>(looks_again));
    if (!erased.ok())
        log(LogLevel::warn, "names-not-erased", "why", erased.status().message);
    else if (erased->count > 0)
        log(LogLevel::info, "names-erased", "count", erased->count);
}

}  // namespace courthand::server
