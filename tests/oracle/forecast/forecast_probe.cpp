// Answers of the forecast for the Python models: a question a line, an answer of JSON a line.
//
//   set POINTS LEAD CAP A B SERVER SERVING RECEIVING   wins of A and B by further rallies
//   match SETS POINTS DECIDING SERVING RECEIVING       ends by winner, sets and rallies
//   pace MEAN DAY MATCH RALLY (N SECONDS)...           the day's pace, then that of the last match
//   strength P RALLIES WON_A WON_B                     places and weights
//   lateness MEAN STARTS SEEN MINUTES                  shape and scale
//   day                                                lines up to "end": see `read_day`
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <iostream>
#include <sstream>
#include <string>

#include "courthand/forecast/day_forecast.h"

namespace courthand::forecast {
namespace {

/// All digits that a double has.
std::string numbers(const Lengths& lengths) {
    std::string text;
    for (const double value : lengths) text += fmt::format("{}{}", text.empty() ? "" : ",", value);
    return "[" + text + "]";
}

std::string answer_set(std::istream& in) {
    MatchFormat format;
    int points = 0, lead = 0, cap = 0;
    SetNow now;
    char server = 'A';
    RallyOdds odds;
    in >> points >> lead >> cap >> now.a >> now.b >> server >> odds.serving >> odds.receiving;
    format.points = static_cast<std::uint8_t>(points);
    format.lead = static_cast<std::uint8_t>(lead);
    format.cap = static_cast<std::uint8_t>(cap);
    now.server = server == 'A' ? Team::A : Team::B;
    const SetCourse course = set_course(format, 1, now, odds);
    return fmt::format("{{\"A\":{},\"B\":{}}}", numbers(course.won_after.a),
                       numbers(course.won_after.b));
}

std::string answer_match(std::istream& in) {
    MatchFormat format;
    int sets = 0, points = 0, deciding = 0;
    RallyOdds odds;
    in >> sets >> points >> deciding >> odds.serving >> odds.receiving;
    format.sets = static_cast<std::uint8_t>(sets);
    format.points = static_cast<std::uint8_t>(points);
    format.deciding_points = static_cast<std::uint8_t>(deciding);
    const MatchCourse course = MatchTable{format, odds}.course(match_start(format, Team::A));
    std::string text;
    for (const Winner winner : {Winner::A, Winner::B})
        for (std::size_t s = 0; s <= MatchFormat::most_sets; ++s)
            text += fmt::format("{}{}", text.empty() ? "" : ",",
                                numbers(course.by[static_cast<std::size_t>(winner)][s]));
    return "[" + text + "]";
}

std::string answer_pace(std::istream& in) {
    PacePrior prior;
    prior.hall_deviation = 0;
    in >> prior.mean >> prior.day_deviation >> prior.match_deviation >> prior.rally_deviation;
    std::vector<Played> played;
    for (Played one; in >> one.rallies >> one.seconds;) played.push_back(one);
    const Normal day = pace_of_day(prior, played);
    const Normal match = pace_of_match(prior, day.mean, played.empty() ? Played{} : played.back());
    return fmt::format("[{},{},{},{}]", day.mean, day.variance, match.mean, match.variance);
}

std::string answer_strength(std::istream& in) {
    StrengthPrior prior;
    PerTeam<int> won;
    in >> prior.p >> prior.rallies >> won.a >> won.b;
    std::string text;
    const auto weights = strength_weights(prior, won);
    for (std::size_t i = 0; i < strengths; ++i)
        text += fmt::format("{}[{},{}]", i == 0 ? "" : ",", strength_at(i), weights[i]);
    return "[" + text + "]";
}

std::string answer_lateness(std::istream& in) {
    PunctualityPrior prior;
    Starts starts;
    in >> prior.mean_minutes >> prior.starts >> starts.seen >> starts.minutes_late;
    const Lateness lateness = lateness_of_day(prior, starts);
    return fmt::format("[{},{}]", lateness.shape, lateness.scale);
}

Entrant read_entrant(std::istream& in) {
    char kind = 't';
    Entrant entrant;
    in >> kind >> entrant.of;
    switch (kind) {
        case 'c':
            entrant.kind = Entrant::Kind::crew;
            break;
        case 'w':
            entrant.kind = Entrant::Kind::winner;
            break;
        case 'l':
            entrant.kind = Entrant::Kind::loser;
            break;
        default:
            entrant.kind = Entrant::Kind::team;
    }
    return entrant;
}

/// "kind REST WARM_UP MEAN DAY MATCH RALLY P RALLIES", "late MEAN STARTS", "size TEAMS CREWS
/// COURTS", and for each match "match COURT PLANNED EARLY SIDE SIDE WORKER", an entrant as "t 3" or
/// "w 0".
Day read_day(std::istream& lines) {
    Day day;
    std::size_t courts = 0;
    for (std::string line; std::getline(lines, line) && line != "end";) {
        std::istringstream in{line};
        std::string word;
        in >> word;
        if (word == "kind") {
            Kind& kind = day.kinds.emplace_back();
            kind.format.sets = 3;
            kind.pace.hall_deviation = 0;
            kind.strength.serve = 0;
            in >> kind.rest >> kind.warm_up >> kind.pace.mean >> kind.pace.day_deviation >>
                kind.pace.match_deviation >> kind.pace.rally_deviation >> kind.strength.p >>
                kind.strength.rallies;
        } else if (word == "late") {
            in >> day.punctuality.mean_minutes >> day.punctuality.starts;
        } else if (word == "size") {
            in >> day.teams >> day.crews >> courts;
            day.courts.resize(courts);
        } else {
            DayMatch match;
            std::size_t court = 0;
            in >> court >> match.planned >> match.may_start_early;
            match.sides[0] = read_entrant(in);
            match.sides[1] = read_entrant(in);
            match.workers = {read_entrant(in)};
            match.name = fmt::format("M{}", day.matches.size() + 1);
            day.courts.at(court).push_back(static_cast<MatchIndex>(day.matches.size()));
            day.matches.push_back(std::move(match));
        }
    }
    return day;
}

std::string answer_day(std::istream& lines) {
    const Day day = read_day(lines);
    Forecaster forecaster;
    const auto result = forecaster.forecast(day, {1, 4096});
    if (const auto* faults = std::get_if<Faults>(&result))
        return fmt::format("\"{}: {}\"", faults->front().place, faults->front().message);
    std::string text;
    for (const MatchForecast& match : std::get<DayForecast>(result).matches)
        text += fmt::format("{}[[{}],[{}],{}]", text.empty() ? "" : ",",
                            fmt::join(match.start.deciles, ","), fmt::join(match.end.deciles, ","),
                            static_cast<int>(match.cause));
    return "[" + text + "]";
}

std::string answer(const std::string& line) {
    std::istringstream in{line};
    std::string what;
    in >> what;
    if (what == "set") return answer_set(in);
    if (what == "match") return answer_match(in);
    if (what == "pace") return answer_pace(in);
    if (what == "strength") return answer_strength(in);
    if (what == "lateness") return answer_lateness(in);
    if (what == "day") return answer_day(std::cin);
    return "null";
}

}  // namespace
}  // namespace courthand::forecast

int main() {
    for (std::string line; std::getline(std::cin, line);)
        std::cout << courthand::forecast::answer(line) << '\n';
    return 0;
}
