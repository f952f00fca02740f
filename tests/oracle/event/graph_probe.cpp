#include <iostream>
#include <map>
#include <string>

#include "courthand/tournament/brackets.h"
#include "json.h"
#include "probe.h"

namespace courthand::event_probe {
namespace {

using namespace courthand::tournament;

/// A source in JSON: ["team", 3], ["winner", 0], ["place", 0, 2].
void print_source(const Graph& graph, SourceIndex index) {
    static const std::map<Source::Kind, std::string> names{
        {Source::Kind::team, "team"},     {Source::Kind::place, "place"},
        {Source::Kind::winner, "winner"}, {Source::Kind::loser, "loser"},
        {Source::Kind::better, "better"}, {Source::Kind::worse, "worse"},
        {Source::Kind::bye, "bye"}};
    const Source& s = graph.sources[index];
    std::cout << "[\"" << names.at(s.kind) << "\"," << s.of;
    if (s.kind == Source::Kind::place) std::cout << ',' << s.second;
    std::cout << ']';
}

void print_graph(const std::string& kind, const Graph& graph) {
    std::cout << "{\"kind\":\"" << kind << "\",\"teams\":" << graph.teams << ",\"matches\":";
    list(graph.matches, [&](const Match& match) {
        std::cout << '[';
        print_source(graph, match.sides[0]);
        std::cout << ',';
        print_source(graph, match.sides[1]);
        std::cout << ',' << static_cast<int>(match.stage) << ','
                  << (match.only_if_second_won ? std::to_string(*match.only_if_second_won) : "null")
                  << ",\"" << match.name << "\"," << match.round << ']';
    });
    std::cout << ",\"places\":";
    list(graph.places, [&](const FinalPlace& place) {
        std::cout << '[' << place.first << ',' << place.last << ',';
        print_source(graph, place.source);
        std::cout << ']';
    });
    std::cout << "}\n";
}

using Add = Faults (*)(Graph&, const std::vector<SourceIndex>&, const BracketOptions&);

void bracket(const std::string& kind, Add add, TeamNumber teams, const BracketOptions& options) {
    Field field = field_of(teams);
    if (add(field.graph, field.entrants, options).empty()) print_graph(kind, field.graph);
}

/// Pools of so many teams, and who of them enters a bracket, best seed first.
void crossing(TeamNumber pools, TeamNumber size, std::uint16_t through, std::uint16_t from) {
    Field field = field_of(static_cast<TeamNumber>(pools * size));
    std::vector<PoolIndex> all;
    for (TeamNumber p = 0; p < pools; ++p) {
        const auto first = field.entrants.begin() + p * size;
        const std::string name = "P" + std::to_string(p + 1) + "-";
        if (!add_pool(field.graph, name, {first, first + size}, name).empty()) return;
        all.push_back(p);
    }
    const auto answer = crossed(field.graph, all, through, from);
    const auto* entrants = std::get_if<std::vector<SourceIndex>>(&answer);
    if (entrants == nullptr) return;
    std::cout << "{\"pools\":" << pools << ",\"from\":" << from << ",\"through\":" << through
              << ",\"entrants\":";
    list(*entrants, [&](SourceIndex s) { print_source(field.graph, s); });
    std::cout << "}\n";
}

}  // namespace

int graphs() {
    for (TeamNumber n = fewest_in_bracket; n <= most_in_bracket; ++n) {
        BracketOptions third;
        third.third_place = true;
        BracketOptions second;
        second.second_final = true;
        bracket("single", &add_single_elimination, n, {});
        bracket("single-third", &add_single_elimination, n, third);
        bracket("double", &add_double_elimination, n, {});
        bracket("double-second", &add_double_elimination, n, second);
        bracket("consolation", &add_consolation, n, {});
        bracket("placement", &add_placement, n, {});
    }
    return 0;
}

int crossings() {
    constexpr TeamNumber size = 4;
    for (TeamNumber pools = 1; pools <= 16; ++pools)
        for (std::uint16_t from = 1; from <= size; ++from)
            for (std::uint16_t through = from; through <= size; ++through)
                crossing(pools, size, through, from);
    return 0;
}

}  // namespace courthand::event_probe
