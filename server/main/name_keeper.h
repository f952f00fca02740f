// Looks at the start and once a day whether the names of persons have been kept for as long as the
// venue says, and then erases them. Not thread-safe; may wait for the database.
#pragma once

#include <chrono>
#include <cstdint>

#include "server/audit/audit_store.h"
#include "server/tournament/name_retention.h"

namespace courthand::server {

class NameKeeper {
  public:
    using Clock = std::chrono::system_clock;
    static constexpr std::chrono::hours looks_every{24};
    /// After a look that failed: the database is away.
    static constexpr std::chrono::minutes looks_again{10};

    struct Parts {
        tournament::FactStore& facts;
        audit::AuditStore& audit;
    };
    /// `days` 0: names are kept until somebody erases them.
    NameKeeper(Parts parts, TournamentId tournament, std::uint32_t days)
        : parts_{parts}, tournament_{tournament}, days_{days} {}

    /// To be called often; does something once a day.
    void look(Clock::time_point now);

  private:
    Parts parts_;
    TournamentId tournament_;
    std::uint32_t days_;
    Clock::time_point next_{};
};

/// The day of a moment, in UTC: a day more or less does not matter to what is kept for months.
[[nodiscard]] event::Date day_of(std::chrono::system_clock::time_point moment) noexcept;

/// The row of the audit for names that are erased.
[[nodiscard]] audit::AuditEntry erased_row(std::chrono::system_clock::time_point now,
                                           std::string subject, std::string detail);

}  // namespace courthand::server
