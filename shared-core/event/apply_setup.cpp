#include <fmt/format.h>

#include <algorithm>

#include "event/applier.h"

namespace courthand::event {

namespace {

/// What its matches were made under stays; limits, lateness and its name may change at any time.
bool may_change_to(const Division& division, const DivisionOpened& fact) {
    const DivisionOpened& rules = division.rules;
    return division.matches.empty() ||
           (rules.profile == fact.profile && rules.chain == fact.chain &&
            rules.format == fact.format && rules.withdrawn == fact.withdrawn);
}

}  // namespace

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

void Applier::operator()(const ConfirmerNamed& fact) {
    state_.confirmer = fact.by;
}

void Applier::operator()(const DivisionOpened& fact) {
    const std::string place = "division " + fact.division;
    const Profile* profile = find_profile(fact.profile);
    const standings::Chain* chain = standings::find_chain(fact.chain);
    if (profile == nullptr)
        return find(Problem::unknown_profile, place,
                    fmt::format("there is no rule profile '{}'", fact.profile),
                    "name one of the built-in profiles");
    if (chain == nullptr)
        return find(Problem::unknown_chain, place,
                    fmt::format("there is no chain '{}'", fact.chain),
                    "name one of the built-in chains");
    const auto known = state_.find_division(fact.division);
    if (known && !may_change_to(state_.divisions[*known], fact))
        return find(Problem::draw_there, place,
                    "its matches are there, under the profile, format and chain it was opened with",
                    "leave these three as they are, or take draw and brackets back first");
    if (!known && state_.divisions.size() >= most_divisions)
        return find(Problem::too_many, place, fmt::format("more than {} divisions", most_divisions),
                    "divide the event");
    if (!known) {
        state_.division_names.emplace(fact.division,
                                      static_cast<DivisionIndex>(state_.divisions.size()));
        state_.divisions.emplace_back();
    }
    Division& division = known ? state_.divisions[*known] : state_.divisions.back();
    division.rules = fact;
    division.profile = profile;
    division.chain = chain;
    division.format = fact.format.own ? fact.format.format : profile->rules.format;
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
