// When each match of a day will begin and end, and what it waits for.
//
// The rest of the day is played many times: each sample has a pace and a lateness of the day, each
// match in it an outcome, a length and a start. A match can begin to warm up when its court, its
// teams with their rest, and its workers are there, begins no earlier than planned unless it may,
// and then as late as matches begin on that day. Chance is seeded and falls by match: the same day
// gives the same forecast, and two days that differ in one match differ by that match only.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "courthand/forecast/day.h"
#include "courthand/forecast/expectation.h"

namespace courthand::forecast {

/// When something will be: nine times, and one course of the day in ten lies between two of them.
struct Band {
    std::array<Minute, 9> deciles{};

    [[nodiscard]] static constexpr Band known(Minute minute) noexcept {
        Band band;
        band.deciles.fill(minute);
        return band;
    }
    /// As likely later as not.
    [[nodiscard]] constexpr Minute p50() const noexcept { return deciles[4]; }
    /// Later in one course of five.
    [[nodiscard]] constexpr Minute p80() const noexcept { return deciles[7]; }
    friend constexpr bool operator==(const Band&, const Band&) = default;
};

/// What a start waits for last.
enum class Cause : std::uint8_t {
    nothing,     ///< all is there
    begun,       ///< it has begun
    court,       ///< the match before it on its court
    team,        ///< a team still plays its earlier match
    rest,        ///< a team rests after it
    duty,        ///< a team still works, or the workers are not free
    sides,       ///< the pool that a side comes from is not over
    not_before,  ///< its planned time
};

struct MatchForecast {
    Band start{};  ///< first service
    Band end{};    ///< last rally
    Cause cause = Cause::nothing;
    double share = 0;              ///< of the samples in which this is the cause
    std::optional<MatchIndex> by;  ///< the match that it comes from, most often
    friend bool operator==(const MatchForecast&, const MatchForecast&) = default;
};

struct DayForecast {
    std::vector<MatchForecast> matches;  ///< by match of the day
    Band end{};                          ///< of the last match; now without one
    friend bool operator==(const DayForecast&, const DayForecast&) = default;
};

struct Sampling {
    std::uint64_t seed = 1;
    std::uint32_t samples = 1024;  ///< a power of two
    static constexpr std::uint32_t fewest = 64;
    static constexpr std::uint32_t most = 1U << 14U;
};

/// What a day's own matches have taught so far.
struct Learned {
    std::vector<Normal> paces;  ///< by kind, seconds a rally
    Lateness lateness{};
};
/// The day must be without faults.
[[nodiscard]] Learned learned(const Day& day);

/// What a day that is over showed of a kind of match, for the days after it in the same hall.
[[nodiscard]] EarlierDay shown_by(const Day& day, KindIndex kind);

/// Makes forecasts; keeps what is the same at every rally. Not for several threads at once.
class Forecaster {
  public:
    Forecaster();
    ~Forecaster();
    Forecaster(const Forecaster&) = delete;
    Forecaster& operator=(const Forecaster&) = delete;

    [[nodiscard]] std::variant<DayForecast, Faults> forecast(const Day& day, Sampling sampling);

  private:
    class Kept;
    std::unique_ptr<Kept> kept_;
};

}  // namespace courthand::forecast
