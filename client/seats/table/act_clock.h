// The clock that an act starts at the table. It informs; the referees keep the time.
#pragma once

#include <QString>
#include <optional>

#include "courthand/match/fact.h"
#include "courthand/rules/profile.h"

namespace courthand::client {

struct ActClock {
    int seconds = 0;
    QString words;
};

/// Nothing for an act that starts none.
[[nodiscard]] std::optional<ActClock> clock_of(const Fact& fact, const Rules& rules);

}  // namespace courthand::client
