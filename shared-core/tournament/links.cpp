#include "tournament/links.h"

namespace courthand::tournament {

std::vector<std::size_t> Links::needed_by(const Graph& graph, std::size_t node) const {
    std::vector<std::size_t> needed;
    if (is_source(node)) {
        const Source& s = graph.sources[node];
        switch (s.kind) {
            case Source::Kind::place:
                needed = {pool(s.of)};
                break;
            case Source::Kind::winner:
            case Source::Kind::loser:
                needed = {match(s.of)};
                break;
            case Source::Kind::better:
            case Source::Kind::worse:
                needed = {source(s.of), source(s.second)};
                break;
            case Source::Kind::team:
            case Source::Kind::bye:
                break;
        }
    } else if (is_match(node)) {
        const Match& m = graph.matches[index(node)];
        for (const SourceIndex side : m.sides) needed.push_back(source(side));
        if (m.only_if_second_won) needed.push_back(match(*m.only_if_second_won));
    } else {
        const PoolNode& p = graph.pools[index(node)];
        for (const SourceIndex team : p.teams) needed.push_back(source(team));
        for (const MatchIndex m : p.matches) needed.push_back(match(m));
    }
    return needed;
}

}  // namespace courthand::tournament
