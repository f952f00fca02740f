#include <iostream>
#include <map>
#include <string>

#include "courthand/draw/pools.h"
#include "courthand/draw/round_robin.h"
#include "courthand/tournament/brackets.h"
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
    std::cout << "{\"kind\":\"" << kind << "\",\"teams\":" << graph.teams << ",\"matches\":[";
    for (std::size_t m = 0; m < graph.matches.size(); ++m) {
        const Match& match = graph.matches[m];
        std::cout << (m == 0 ? "[" : ",[");
        print_source(graph, match.sides[0]);
        std::cout << ',';
        print_source(graph, match.sides[1]);
        std::cout << ',' << static_cast<int>(match.stage) << ','
                  << (match.only_if_second_won ? std::to_string(*match.only_if_second_won) : "null")
                  << ']';
    }
    std::cout << "],\"places\":[";
    for (std::size_t p = 0; p < graph.places.size(); ++p) {
        std::cout << (p == 0 ? "[" : ",[") << graph.places[p].first << ',' << graph.places[p].last
                  << ',';
        print_source(graph, graph.places[p].source);
        std::cout << ']';
    }
    std::cout << "]}\n";
}

using Add = Faults (*)(Graph&, const std::vector<SourceIndex>&, const BracketOptions&);

void bracket(const std::string& kind, Add add, TeamNumber teams, const BracketOptions& options) {
    Field field = field_of(teams);
    if (add(field.graph, field.entrants, options).empty()) print_graph(kind, field.graph);
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

int draws() {
    for (std::size_t pools = 1; pools <= 12; ++pools)
        for (std::size_t teams = 3 * pools; teams <= 8 * pools; ++teams)
            for (std::uint64_t seed = 0; seed < 3; ++seed) {
                const auto drawn = std::get<draw::Pools>(draw::drawn_in_rows(teams, pools, seed));
                const auto snake = std::get<draw::Pools>(draw::serpentine(teams, pools));
                std::cout << "{\"teams\":" << teams << ",\"pools\":" << pools
                          << ",\"seed\":" << seed;
                for (const auto* all : {&snake, &drawn}) {
                    std::cout << (all == &snake ? ",\"snake\":[" : ",\"drawn\":[");
                    for (std::size_t p = 0; p < all->size(); ++p) {
                        std::cout << (p == 0 ? "[" : ",[");
                        for (std::size_t t = 0; t < (*all)[p].size(); ++t)
                            std::cout << (t == 0 ? "" : ",") << (*all)[p][t];
                        std::cout << ']';
                    }
                    std::cout << ']';
                }
                std::cout << "}\n";
            }
    return 0;
}

int rounds() {
    for (std::uint16_t n = draw::fewest_in_round_robin; n <= draw::most_in_round_robin; ++n) {
        const auto rounds = std::get<std::vector<draw::Round>>(draw::circle(n));
        std::cout << "{\"teams\":" << n << ",\"rounds\":[";
        for (std::size_t r = 0; r < rounds.size(); ++r) {
            std::cout << (r == 0 ? "[" : ",[");
            for (std::size_t m = 0; m < rounds[r].matches.size(); ++m)
                std::cout << (m == 0 ? "[" : ",[") << rounds[r].matches[m].first << ','
                          << rounds[r].matches[m].second << ']';
            std::cout << ']';
        }
        std::cout << "]}\n";
    }
    return 0;
}

}  // namespace courthand::event_probe
