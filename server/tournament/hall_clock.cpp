#include "server/tournament/hall_clock.h"

#include <absl/time/civil_time.h>
#include <absl/time/time.h>

#include <algorithm>

namespace courthand::server::tournament {

namespace {

constexpr absl::CivilMinute beginning{1970, 1, 1, 0, 0};

absl::TimeZone zone_of(const std::string& name) {
    absl::TimeZone zone;
    return absl::LoadTimeZone(name, &zone) ? zone : absl::UTCTimeZone();
}

}  // namespace

ServerTime HallClock::moment(event::LocalTime time) const {
    const auto info = zone_of(zone_).At(absl::CivilSecond{beginning + time.minutes});
    return std::chrono::time_point_cast<ServerTime::duration>(absl::ToChronoTime(info.pre));
}

event::LocalTime HallClock::shows(ServerTime time) const {
    const auto minute = absl::ToCivilMinute(absl::FromChrono(time), zone_of(zone_));
    const absl::civil_diff_t minutes = minute - beginning;
    return {static_cast<std::int32_t>(
        std::clamp<absl::civil_diff_t>(minutes, 1, event::latest_time.minutes))};
}

}  // namespace courthand::server::tournament
