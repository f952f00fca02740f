// Plays simulated days and judges what was forecast of them. The long form, by hand:
//
//     forecast_days [--days 1000] [--first-seed 10001] [--samples 1024] [--plot FILE.svg]
//
// Prints the shares of ends before P50 and P80 and the errors, by how far ahead they were told. How
// days differ from the model, and what the model believes, may be said too (--help).
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <fstream>
#include <string>

#include "tests/bench/calibration.h"

namespace courthand::forecast {
namespace {

std::string row(const std::string& what, const Judged& of) {
    return fmt::format("{:<22}{:>10}{:>8.1f}{:>8.1f}{:>9.2f}{:>11.2f}{:>11.2f}{:>8.2f}\n", what,
                       of.forecasts, 100 * of.share(4), 100 * of.share(7), of.mean_off(of.off),
                       of.mean_off(of.mean_delay_off), of.mean_off(of.court_delay_off),
                       of.off / of.mean_delay_off);
}

std::string table(const Calibration& calibration) {
    std::string text =
        fmt::format("{:<22}{:>10}{:>8}{:>8}{:>9}{:>11}{:>11}{:>8}\n", "", "forecasts", "< P50 %",
                    "< P80 %", "P50 off", "mean delay", "its court", "ratio");
    text += row("all", calibration.all);
    for (std::size_t h = 0; h < Calibration::horizons; ++h)
        text += row(h + 1 < Calibration::horizons ? fmt::format("{} to {} hours ahead", h, h + 1)
                                                  : fmt::format("{} hours and more", h),
                    calibration.by_horizon[h]);
    text += row("days below 30 s", calibration.by_pace[0]);
    text += row("days of 30 to 35 s", calibration.by_pace[1]);
    text += row("days above 35 s", calibration.by_pace[2]);
    return text;
}

/// Said chance to the right, share that came upwards: a good forecast lies on the diagonal.
std::string plot(const Judged& of) {
    std::string points;
    std::string dots;
    for (std::size_t i = 0; i < of.before.size(); ++i) {
        const double x = 40 + 40 * static_cast<double>(i + 1);
        const double y = 440 - 400 * of.share(i);
        points += fmt::format("{:.1f},{:.1f} ", x, y);
        dots += fmt::format(
            "<circle cx='{:.1f}' cy='{:.1f}' r='4'/><text x='{:.1f}' y='{:.1f}' "
            "font-size='11'>{:.3f}</text>",
            x, y, x + 7, y + 12, of.share(i));
    }
    return fmt::format(
        "<svg xmlns='http://www.w3.org/2000/svg' width='490' height='490' "
        "font-family='sans-serif'><rect width='490' height='490' fill='white'/>"
        "<path d='M40 40V440H440' fill='none' stroke='black'/>"
        "<path d='M40 440L440 40' stroke='grey' stroke-dasharray='4'/>"
        "<polyline points='{}' fill='none' stroke='black'/>{}"
        "<text x='130' y='475' font-size='13'>chance said that a match ends before</text>"
        "<text x='15' y='330' font-size='13' transform='rotate(-90 15 330)'>share that did</text>"
        "</svg>\n",
        points, dots);
}

void add_options(CLI::App& app, Habits& habits, Beliefs& beliefs) {
    app.add_option("--pace", habits.pace, "truth: seconds of a rally over all days");
    app.add_option("--pace-of-days", habits.pace_of_days, "truth: how days differ, seconds");
    app.add_option("--strength", habits.strength, "truth: deviation of a team");
    app.add_option("--serve", habits.serve, "truth: what the serving team wins less");
    app.add_option("--time-out", habits.time_out, "truth: share of rallies before a time-out");
    app.add_option("--injury", habits.injury, "truth: share of rallies before an injury");
    app.add_option("--late-crew", habits.late_crew, "truth: share of starts that wait for a crew");
    app.add_option("--believed-pace", beliefs.pace.mean, "model: seconds of a rally");
    app.add_option("--believed-hall", beliefs.pace.hall_deviation, "model: of a hall");
    app.add_option("--believed-day", beliefs.pace.day_deviation, "model: of a day");
    app.add_option("--believed-match", beliefs.pace.match_deviation, "model: of a match");
    app.add_option("--believed-rally", beliefs.pace.rally_deviation, "model: of a rally");
    app.add_option("--believed-strength", beliefs.strength.rallies, "model: weight in rallies");
    app.add_option("--believed-serve", beliefs.strength.serve, "model: what serving costs");
    app.add_option("--believed-late", beliefs.punctuality.mean_minutes, "model: minutes late");
}

}  // namespace
}  // namespace courthand::forecast

int main(int argc, char** argv) {
    using namespace courthand::forecast;
    CLI::App app{"Judges forecasts of simulated days."};
    Trial trial;
    std::string picture;
    Habits habits;
    Beliefs beliefs;
    bool unknown = false;
    add_options(app, habits, beliefs);
    app.add_option("--days", trial.days, "how many days are played")->check(CLI::Range(1, 100'000));
    app.add_option("--first-seed", trial.first_seed, "of the first day; the others follow");
    app.add_option("--samples", trial.samples, "samples of each forecast, a power of two");
    app.add_flag("--unknown-hall", unknown, "each morning knows nothing of the days before it");
    app.add_option("--plot", picture, "writes the reliability of all deciles as SVG");
    CLI11_PARSE(app, argc, argv);
    if (unknown) trial.hall = Hall::unknown;
    const Calibration calibration = calibrate(trial, habits, beliefs);
    fmt::print("{} days from seed {}\n{}", trial.days, trial.first_seed, table(calibration));
    if (!picture.empty()) {
        std::ofstream out{picture};
        out << plot(calibration.all);
        if (!out.flush()) {
            fmt::print(stderr, "{}: cannot be written\n", picture);
            return 1;
        }
    }
    return 0;
}
