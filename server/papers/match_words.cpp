#include "server/papers/match_words.h"

#include <fmt/format.h>

#include <array>

#include "courthand/event/advance.h"
#include "courthand/event/choices.h"
#include "courthand/event/duty.h"

namespace courthand::server::papers {
namespace {

constexpr std::array months{"January", "February", "March",     "April",   "May",      "June",
                            "July",    "August",   "September", "October", "November", "December"};

struct Day {
    std::string year;
    std::string month;
    int day = 0;
};

/// From the ISO 8601 form that the core writes.
Day day_of(event::Date date) {
    const std::string text = event::written(date);
    const auto month = static_cast<std::size_t>(std::stoi(text.substr(5, 2)) - 1);
    return {text.substr(0, 4), months.at(month), std::stoi(text.substr(8, 2))};
}

}  // namespace

std::string division_words(const event::Division& division) {
    const std::string& name = division.rules.name;
    const std::size_t first = name.find_first_not_of(' ');
    if (first == std::string::npos) return division.rules.division;
    return name.substr(first, name.find_last_not_of(' ') - first + 1);
}

std::string side_words(const event::TournamentState& state, event::MatchRef match,
                       std::size_t which) {
    const event::Side side = state.side(match, which);
    if (side.is_team()) return state.teams[side.team].name;
    if (side.state == event::Side::State::bye) return "bye";
    return event::source_words(state, match.division, state.node(match).sides.at(which));
}

std::string place_words(const event::MatchState& match, bool with_day) {
    if (!match.placement) return {};
    const event::Placement& place = *match.placement;
    std::string text = fmt::format("court {}", place.court);
    if (!place.at.given()) return text;
    const std::string time = event::written(place.at).substr(11);
    if (!with_day) return fmt::format("{}, {}", text, time);
    return fmt::format("{}, {} {}", text, short_day_words(place.at.date()), time);
}

std::string work_words(const event::TournamentState& state, event::MatchRef match) {
    const auto source = event::workers_of(state, match);
    if (!source) return {};
    const event::Side side = state.divisions[match.division].settled[*source];
    return side.is_team() ? state.teams[side.team].name
                          : event::source_words(state, match.division, *source);
}

std::string referees_words(const event::Duty& duty) {
    const std::string first = duty.first_referee != 0 ? fmt::format("{}", duty.first_referee) : "";
    if (duty.second_referee == 0) return first;
    return fmt::format("{}, {}", first.empty() ? "-" : first, duty.second_referee);
}

SetCount sets_won(const event::Result& result) {
    SetCount count;
    for (const event::SetScore set : result.sets) {
        count.first += set.first > set.second ? 1U : 0U;
        count.second += set.second > set.first ? 1U : 0U;
    }
    return count;
}

std::string sets_words(const event::Result& result) {
    if (result.award == event::Award::double_default) return "double default";
    const SetCount count = sets_won(result);
    return fmt::format("{}-{}", count.first, count.second);
}

std::string points_words(const event::Result& result, bool second) {
    std::string text;
    for (const event::SetScore set : result.sets)
        text += fmt::format("{}{}-{}", text.empty() ? "" : " ", second ? set.second : set.first,
                            second ? set.first : set.second);
    return text;
}

std::string origin_words(const event::Result& result) {
    if (result.award) {
        std::string word{choice_word(*result.award)};
        if (const auto hyphen = word.find('-'); hyphen != std::string::npos) word[hyphen] = ' ';
        return word;
    }
    if (result.from == event::ResultFrom::signed_record) return "signed";
    return result.from == event::ResultFrom::paper ? "paper" : "table";
}

std::string short_day_words(event::Date date) {
    const Day day = day_of(date);
    return fmt::format("{} {}", day.day, day.month.substr(0, 3));
}

std::string days_words(event::Date first, event::Date last) {
    if (!first.given()) return {};
    const Day from = day_of(first);
    const Day to = day_of(last.given() ? last : first);
    if (first == last || !last.given())
        return fmt::format("{} {} {}", from.day, from.month, from.year);
    if (from.month == to.month && from.year == to.year)
        return fmt::format("{} to {} {} {}", from.day, to.day, to.month, to.year);
    return fmt::format("{} {} {} to {} {} {}", from.day, from.month, from.year, to.day, to.month,
                       to.year);
}

}  // namespace courthand::server::papers
