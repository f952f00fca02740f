#include "tournament/bracket_builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace courthand::tournament {

std::pair<Entrant, Entrant> BracketBuilder::meet(Entrant a, Entrant b, Stage stage,
                                                 std::uint16_t round) {
    if (!a || !b) return {a ? a : b, std::nullopt};
    Match match;
    match.name = fmt::format("{}{}", prefix_, ++numbered_);
    match.stage = stage;
    match.round = round;
    match.sides = {*a, *b};
    const auto index = static_cast<std::uint32_t>(graph_.matches.size());
    graph_.matches.push_back(std::move(match));
    return {graph_.add({Source::Kind::winner, index, 0}),
            graph_.add({Source::Kind::loser, index, 0})};
}

Halves BracketBuilder::round(const std::vector<Entrant>& entrants, Stage stage,
                             std::uint16_t round) {
    Halves halves;
    for (std::size_t i = 0; i + 1 < entrants.size(); i += 2) {
        const auto [winner, loser] = meet(entrants[i], entrants[i + 1], stage, round);
        halves.winners.push_back(winner);
        halves.losers.push_back(loser);
    }
    return halves;
}

std::vector<Halves> BracketBuilder::knock_out(std::vector<Entrant> slots, Stage stage) {
    std::vector<Halves> rounds;
    for (std::uint16_t r = 1; slots.size() > 1; ++r) {
        rounds.push_back(round(slots, stage, r));
        slots = rounds.back().winners;
    }
    return rounds;
}

void BracketBuilder::share_places(const std::vector<Entrant>& entrants, std::uint16_t& next) {
    const auto count = std::count_if(entrants.begin(), entrants.end(), &real);
    if (count == 0) return;
    const auto last = static_cast<std::uint16_t>(next + count - 1);
    for (const Entrant& e : entrants)
        if (e) graph_.places.push_back({next, last, *e});
    next = static_cast<std::uint16_t>(last + 1);
}

std::vector<std::uint16_t> slots_of(std::size_t size) {
    std::vector<std::uint16_t> slots{1};
    while (slots.size() < size) {
        const std::size_t sum = 2 * slots.size() + 1;
        std::vector<std::uint16_t> wider;
        for (const std::uint16_t seed : slots) {
            wider.push_back(seed);
            wider.push_back(static_cast<std::uint16_t>(sum - seed));
        }
        slots = std::move(wider);
    }
    return slots;
}

std::vector<Entrant> slotted(const std::vector<SourceIndex>& entrants) {
    std::size_t size = 1;
    while (size < entrants.size()) size *= 2;
    std::vector<Entrant> slots;
    for (const std::uint16_t seed : slots_of(size))
        slots.push_back(seed <= entrants.size() ? Entrant{entrants[seed - 1U]} : std::nullopt);
    return slots;
}

std::string free_prefix(const std::function<bool(const std::string&)>& taken) {
    // Without I and O, which are read as digits.
    constexpr std::string_view letters = "MNPQRSTUVWXYZABCDEFGHJKL";
    for (const std::string_view before : {"", "B", "C", "D"})
        for (const char letter : letters) {
            std::string prefix{before};
            prefix += letter;
            if (!taken(prefix + "1")) return prefix;
        }
    return "BB";
}

Faults faults_of_prefix(const Graph& graph, const std::string& prefix) {
    const auto taken = [&](const std::string& name) {
        return std::any_of(graph.matches.begin(), graph.matches.end(),
                           [&](const Match& m) { return m.name == name; });
    };
    if (!taken(prefix + "1")) return {};
    return {{"bracket", fmt::format("there is a match {}1 already", prefix),
             fmt::format("choose other letters for the names of its matches, such as {}",
                         free_prefix(taken))}};
}

Faults faults_of_entrants(const Graph& graph, const std::vector<SourceIndex>& entrants,
                          const std::string& prefix) {
    Faults faults = faults_of_prefix(graph, prefix);
    if (entrants.size() < fewest_in_bracket)
        faults.push_back({"bracket", fmt::format("{} entrants", entrants.size()),
                          fmt::format("enter {} or more", fewest_in_bracket)});
    if (entrants.size() > most_in_bracket)
        faults.push_back(
            {"bracket",
             fmt::format("{} entrants; a bracket has {} at most", entrants.size(), most_in_bracket),
             "play pools first, or make two brackets"});
    for (const SourceIndex s : entrants)
        if (s >= graph.sources.size())
            faults.push_back({"bracket", "an entrant that is not in the graph", "add it first"});
    return faults;
}

Field field_of(TeamNumber teams) {
    Field field;
    field.graph.teams = teams;
    for (TeamNumber t = 1; t <= teams; ++t)
        field.entrants.push_back(field.graph.add({Source::Kind::team, t, 0}));
    return field;
}

}  // namespace courthand::tournament
