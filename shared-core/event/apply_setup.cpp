#include <fmt/format.h>

#include <algorithm>

#include "event/applier.h"

namespace courthand::event {

void Applier::operator()(const TournamentOpened& fact) {
    if (state_.opened)
        return find(Problem::opened_twice, "tournament",
                    fmt::format("\"{}\" is open already", state_.opened->name),
                    "take its opening back first");
    if (fact.last_day < fact.first_day)
        return find(Problem::dates_reversed, "tournament", "its last day is before its first",
                    "say the days the other way round");
    state_.opened = fact;
}

void Applier::operator()(const DivisionOpened& fact) {
    const std::string place = "division " + fact.division;
    if (state_.find_division(fact.division))
        return find(Problem::name_taken, place, "there is a division of this code already",
                    "choose another code, or take the first one back");
    if (state_.divisions.size() >= most_divisions)
        return find(Problem::too_many, place, fmt::format("more than {} divisions", most_divisions),
                    "divide the event");
    Division division;
    division.rules = fact;
    division.profile = find_profile(fact.profile);
    division.chain = standings::find_chain(fact.chain);
    if (division.profile == nullptr)
        return find(Problem::unknown_profile, place,
                    fmt::format("there is no rule profile '{}'", fact.profile),
                    "name one of the built-in profiles");
    if (division.chain == nullptr)
        return find(Problem::unknown_chain, place,
                    fmt::format("there is no chain '{}'", fact.chain),
                    "name one of the built-in chains");
    division.format = fact.format.own ? fact.format.format : division.profile->rules.format;
    state_.division_names.emplace(fact.division,
                                  static_cast<DivisionIndex>(state_.divisions.size()));
    state_.divisions.push_back(std::move(division));
}

void Applier::operator()(const CourtOpened& fact) {
    if (fact.opens.given() && fact.closes.given() && fact.closes <= fact.opens)
        return find(Problem::dates_reversed, fmt::format("court {}", fact.court),
                    "it closes before it opens", "say the hours the other way round");
    Court& court = state_.courts[fact.court];
    if (!fact.name.empty()) court.name = fact.name;
    if (!fact.features.empty()) court.features = fact.features;
    if (!fact.opens.given() && !fact.closes.given()) return;
    const auto same_day = [&](const Hours& h) { return h.opens.date() == fact.opens.date(); };
    const auto found = std::find_if(court.hours.begin(), court.hours.end(), same_day);
    if (found != court.hours.end())
        *found = {fact.opens, fact.closes};
    else
        court.hours.push_back({fact.opens, fact.closes});
}

}  // namespace courthand::event
