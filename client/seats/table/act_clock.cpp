#include "act_clock.h"

#include <QCoreApplication>

namespace courthand::client {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("ActClock", words);
}

}  // namespace

std::optional<ActClock> clock_of(const Fact& fact, const Rules& rules) {
    if (std::holds_alternative<TimeOut>(fact))
        return ActClock{rules.time_out_seconds, tr("Time-out")};
    if (std::holds_alternative<Interval>(fact))
        return ActClock{rules.interval_seconds, tr("Interval")};
    if (std::holds_alternative<Recovery>(fact))
        return ActClock{rules.recovery_seconds, tr("Recovery time")};
    return std::nullopt;
}

}  // namespace courthand::client
