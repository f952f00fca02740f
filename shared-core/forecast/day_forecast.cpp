#include "courthand/forecast/day_forecast.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "forecast/chance.h"
#include "forecast/outcomes.h"
#include "forecast/world.h"

namespace courthand::forecast {
namespace {

/// A rally with its service takes this many seconds at least, whatever a normal law says of few.
constexpr double quickest_rally = 8;

/// Streams of chance: three of each match, and behind them those of the day.
enum class Of : std::uint64_t { outcome, length, lateness };
constexpr std::uint64_t stream(MatchIndex match, Of what) {
    return std::uint64_t{match} * 3 + static_cast<std::uint64_t>(what);
}
constexpr std::uint64_t day_stream(std::size_t number) {
    return most_matches * 3 + number;
}

/// A match that is not over, ready to be played many times.
struct Ahead {
    MatchIndex match = 0;
    const Kind* kind = nullptr;
    bool live = false;
    std::vector<Outcome> outcomes;  ///< by part of chance
    Played played{};
    double interval_left = 0;
    Chance::Order outcome{};
    Chance::Order length{};
    Chance::Order lateness{};
};

/// How often a match waited for what.
class Tally {
  public:
    void count(const Ready& ready) {
        const auto found = std::find_if(rows_.begin(), rows_.end(), [&](const Row& row) {
            return row.cause == ready.cause && row.by == ready.by;
        });
        if (found != rows_.end())
            ++found->times;
        else
            rows_.push_back({ready.cause, ready.by, 1});
    }

    void tell(MatchForecast& forecast, std::uint32_t samples) const {
        constexpr std::size_t causes = static_cast<std::size_t>(Cause::not_before) + 1;
        std::array<std::uint32_t, causes> sums{};
        for (const Row& row : rows_) sums[static_cast<std::size_t>(row.cause)] += row.times;
        const auto most = std::max_element(sums.begin(), sums.end());
        forecast.cause = static_cast<Cause>(most - sums.begin());
        forecast.share = static_cast<double>(*most) / samples;
        std::uint32_t often = 0;
        for (const Row& row : rows_)
            if (row.cause == forecast.cause && row.times > often) {
                often = row.times;
                if (row.by != Ready::nobody) forecast.by = row.by;
            }
    }

  private:
    struct Row {
        Cause cause;
        MatchIndex by;
        std::uint32_t times;
    };
    std::vector<Row> rows_;
};

/// Reorders the samples.
Band band_of(std::vector<float>& minutes, Minute from) {
    Band band;
    auto sorted_to = minutes.begin();
    for (std::size_t i = 0; i < band.deciles.size(); ++i) {
        const std::size_t rank = (minutes.size() * (i + 1) + band.deciles.size()) / 10 - 1;
        const auto place = minutes.begin() + static_cast<std::ptrdiff_t>(rank);
        std::nth_element(sorted_to, place, minutes.end());
        band.deciles[i] = from + static_cast<Minute>(*place);
        sorted_to = place;
    }
    return band;
}

/// The matches that are over, the earliest end first.
std::vector<std::pair<Minute, MatchIndex>> over_by_end(const Day& day) {
    std::vector<std::pair<Minute, MatchIndex>> matches;
    for (std::size_t m = 0; m < day.matches.size(); ++m)
        if (const auto* over = std::get_if<Over>(&day.matches[m].state))
            matches.emplace_back(over->ended, static_cast<MatchIndex>(m));
    std::sort(matches.begin(), matches.end());
    return matches;
}

/// All samples of the rest of one day.
class Samples {
  public:
    /// `spread`: by part of chance, a gamma variable of the shape of the day's lateness.
    Samples(const Day& day, Sampling sampling, Learned learned, const std::vector<double>& spread,
            std::vector<Ahead> ahead)
        : day_{day},
          samples_{sampling.samples},
          chance_{sampling.seed, sampling.samples},
          seed_{sampling.seed},
          learned_{std::move(learned)},
          spread_{spread},
          ahead_{std::move(ahead)},
          starts_(ahead_.size(), std::vector<float>(samples_)),
          ends_(starts_),
          tallies_(ahead_.size()),
          last_(samples_),
          late_{chance_.order(day_stream(0))} {
        for (Ahead& of : ahead_) {
            of.outcome = chance_.order(stream(of.match, Of::outcome));
            of.length = chance_.order(stream(of.match, Of::length));
            of.lateness = chance_.order(stream(of.match, Of::lateness));
        }
        for (std::size_t kind = 0; kind < day.kinds.size(); ++kind)
            paces_.push_back(chance_.order(day_stream(1 + kind)));
    }

    void play() {
        World begun{day_};
        Minute latest = -std::numeric_limits<Minute>::infinity();
        for (const auto& [ended, match] : over_by_end(day_)) {
            begun.play(match, ended, std::get<Over>(day_.matches[match].state).winner);
            latest = ended;
        }
        World world = begun;
        for (std::uint32_t s = 0; s < samples_; ++s) {
            world = begun;
            world.draw(seed_ + s);
            play_once(world, s, latest);
        }
    }

    void tell(DayForecast& forecast) {
        for (std::size_t i = 0; i < ahead_.size(); ++i) {
            MatchForecast& match = forecast.matches[ahead_[i].match];
            match.start = band_of(starts_[i], day_.now);
            match.end = band_of(ends_[i], day_.now);
            if (!ahead_[i].live) tallies_[i].tell(match, samples_);
        }
        if (!day_.matches.empty()) forecast.end = band_of(last_, day_.now);
    }

  private:
    void play_once(World& world, std::uint32_t s, Minute latest) {
        const double late = learned_.lateness.scale / spread_[chance_.part(late_, s)];
        for (std::size_t i = 0; i < ahead_.size(); ++i) {
            const Ahead& ahead = ahead_[i];
            Minute start = day_.now;
            if (ahead.live)
                starts_[i][s] = static_cast<float>(
                    std::get<Live>(day_.matches[ahead.match].state).began - day_.now);
            else
                start = begin(world, i, s, late);
            const Outcome outcome = ahead.outcomes[chance_.part(ahead.outcome, s)];
            const Minute end = start + minutes(ahead, outcome, s);
            ends_[i][s] = static_cast<float>(end - day_.now);
            latest = std::max(latest, end);
            world.play(ahead.match, end, outcome.winner);
        }
        last_[s] = static_cast<float>(latest - day_.now);
    }

    Minute begin(World& world, std::size_t i, std::uint32_t s, double late) {
        const Ahead& ahead = ahead_[i];
        Ready ready = world.ready(ahead.match);
        Minute possible = ready.at + ahead.kind->warm_up;
        if (possible < day_.now) {
            // All has been there for a while: what came last is no news any more.
            ready = {};
            possible = day_.now;
        }
        tallies_[i].count(ready);
        const Minute start = possible + late * chance_.exponential(chance_.part(ahead.lateness, s));
        starts_[i][s] = static_cast<float>(start - day_.now);
        return start;
    }

    /// The rest of a match, in minutes.
    [[nodiscard]] double minutes(const Ahead& ahead, const Outcome& outcome,
                                 std::uint32_t s) const {
        const PacePrior& prior = ahead.kind->pace;
        const auto kind = static_cast<std::size_t>(ahead.kind - day_.kinds.data());
        const Normal& of_day = learned_.paces[kind];
        const double day_pace = of_day.mean + std::sqrt(of_day.variance) *
                                                  chance_.normal(chance_.part(paces_[kind], s));
        const Normal pace = pace_of_match(prior, day_pace, ahead.played);
        const double n = outcome.rallies;
        const double variance =
            n * n * pace.variance + n * prior.rally_deviation * prior.rally_deviation;
        const double seconds =
            n * pace.mean + std::sqrt(variance) * chance_.normal(chance_.part(ahead.length, s));
        const double intervals = outcome.sets > 1 ? (outcome.sets - 1) * ahead.kind->interval : 0;
        return std::max(seconds, n * quickest_rally) / 60 + intervals + ahead.interval_left;
    }

    const Day& day_;
    std::uint32_t samples_;
    Chance chance_;
    std::uint64_t seed_;
    Learned learned_;
    const std::vector<double>& spread_;
    std::vector<Ahead> ahead_;                ///< in the order in which they wait for each other
    std::vector<std::vector<float>> starts_;  ///< minutes from now, by match ahead and sample
    std::vector<std::vector<float>> ends_;
    std::vector<Tally> tallies_;
    std::vector<float> last_;  ///< by sample, the end of the day
    Chance::Order late_;
    std::vector<Chance::Order> paces_;  ///< by kind
};

}  // namespace

/// What is the same at every rally: the courses of each format and of its fresh matches, and how
/// lateness is spread.
class Forecaster::Kept {
  public:
    const Expectation& expectation(const MatchFormat& format, double serve) {
        for (const auto& known : formats_)
            if (known->format() == format && known->serve() == serve) return *known;
        if (formats_.size() >= most_kinds) formats_.clear();
        return *formats_.emplace_back(std::make_unique<Expectation>(format, serve));
    }

    const std::vector<Outcome>& fresh(const MatchFormat& format, const StrengthPrior& strength,
                                      std::uint32_t samples) {
        for (const Fresh& known : fresh_)
            if (known.format == format && known.strength == strength &&
                known.outcomes.size() == samples)
                return known.outcomes;
        if (fresh_.size() >= most_kinds) fresh_.clear();
        return fresh_
            .emplace_back(
                Fresh{format, strength,
                      outcomes_of(expectation(format, strength.serve).fresh(strength), samples)})
            .outcomes;
    }

    /// A gamma variable of this shape by part of chance. The shape grows with each start and is
    /// the same until the next.
    const std::vector<double>& gamma(double shape, std::uint32_t samples) {
        if (shape != gamma_shape_ || gamma_.size() != samples) {
            gamma_shape_ = shape;
            gamma_.clear();
            for (std::uint32_t part = 0; part < samples; ++part)
                gamma_.push_back(gamma_quantile(shape, (part + .5) / samples));
        }
        return gamma_;
    }

    Ahead ahead(const Day& day, MatchIndex match, std::uint32_t samples) {
        const Kind& kind = day.kinds[day.matches[match].kind];
        const MatchFormat& format = format_of(day, match);
        const auto* live = std::get_if<Live>(&day.matches[match].state);
        Ahead ahead;
        ahead.match = match;
        ahead.kind = &kind;
        if (live == nullptr) {
            ahead.outcomes = fresh(format, kind.strength, samples);
            return ahead;
        }
        const MatchCourse course = expectation(format, kind.strength.serve)
                                       .live(kind.strength, live->score, live->rallies_won);
        ahead.live = true;
        ahead.outcomes = outcomes_of(course, samples);
        ahead.played = live->played;
        ahead.interval_left = live->interval_left;
        return ahead;
    }

  private:
    struct Fresh {
        MatchFormat format;
        StrengthPrior strength;
        std::vector<Outcome> outcomes;
    };
    std::vector<std::unique_ptr<Expectation>> formats_;
    std::vector<Fresh> fresh_;
    std::vector<double> gamma_;
    double gamma_shape_ = 0;
};

Forecaster::Forecaster() : kept_{std::make_unique<Kept>()} {}
Forecaster::~Forecaster() = default;

std::variant<DayForecast, Faults> Forecaster::forecast(const Day& day, Sampling sampling) {
    Faults faults = faults_of(day);
    const bool power_of_two = (sampling.samples & (sampling.samples - 1)) == 0;
    if (!power_of_two || sampling.samples < Sampling::fewest || sampling.samples > Sampling::most)
        faults.push_back(
            {"sampling", "the number of samples is a power of two, 64 to 16384", "take 1024"});
    if (!faults.empty()) return faults;
    std::vector<Ahead> ahead;
    const auto order = order_of_waiting(day);
    for (const MatchIndex match : *order)
        ahead.push_back(kept_->ahead(day, match, sampling.samples));
    DayForecast forecast;
    forecast.end = Band::known(day.now);
    forecast.matches.resize(day.matches.size());
    for (std::size_t m = 0; m < day.matches.size(); ++m) {
        forecast.matches[m].cause = Cause::begun;
        forecast.matches[m].share = 1;
        if (const auto* over = std::get_if<Over>(&day.matches[m].state)) {
            forecast.matches[m].start = Band::known(over->began);
            forecast.matches[m].end = Band::known(over->ended);
        }
    }
    Learned of_day = learned(day);
    const auto& spread = kept_->gamma(of_day.lateness.shape, sampling.samples);
    Samples samples{day, sampling, std::move(of_day), spread, std::move(ahead)};
    samples.play();
    samples.tell(forecast);
    return forecast;
}

}  // namespace courthand::forecast
