// The clock in the hall: moments as the record of a tournament has them, and as everybody else.
#pragma once

#include <string>

#include "courthand/event/state.h"
#include "server/store/match_store.h"

namespace courthand::server::tournament {

/// In the time zone of the tournament; in UTC before it is opened, and when the system does not
/// know the zone.
class HallClock {
  public:
    explicit HallClock(const event::TournamentState& state)
        : zone_{state.opened ? state.opened->time_zone : "UTC"} {}

    /// Of a moment that the clock shows twice or never, the one of the offset before.
    [[nodiscard]] ServerTime moment(event::LocalTime time) const;
    /// To the minute; within the years of a record.
    [[nodiscard]] event::LocalTime shows(ServerTime time) const;

  private:
    std::string zone_;  ///< name in the IANA time zone database
};

}  // namespace courthand::server::tournament
