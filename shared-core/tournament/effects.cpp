#include "courthand/tournament/graph.h"
#include "tournament/links.h"

namespace courthand::tournament {

Effects effects_of(const Graph& graph, MatchIndex match) {
    const Links links{graph};
    std::vector<std::vector<std::size_t>> leads_to(links.count());
    for (std::size_t node = 0; node < links.count(); ++node)
        for (const std::size_t needed : links.needed_by(graph, node))
            leads_to[needed].push_back(node);
    std::vector<bool> reached(links.count(), false);
    std::vector<std::size_t> queue{links.match(match)};
    for (std::size_t i = 0; i < queue.size(); ++i)
        for (const std::size_t next : leads_to[queue[i]]) {
            if (reached[next]) continue;
            reached[next] = true;
            queue.push_back(next);
        }
    Effects effects;
    const auto matches = static_cast<MatchIndex>(graph.matches.size());
    for (MatchIndex m = 0; m < matches; ++m) {
        if (reached[links.match(m)]) effects.matches.push_back(m);
        const auto workers = graph.matches[m].workers;
        if (workers && reached[links.source(*workers)]) effects.duties.push_back(m);
    }
    const auto pools = static_cast<PoolIndex>(graph.pools.size());
    for (PoolIndex p = 0; p < pools; ++p)
        if (reached[links.pool(p)]) effects.pools.push_back(p);
    for (std::size_t i = 0; i < graph.places.size(); ++i)
        if (reached[links.source(graph.places[i].source)]) effects.places.push_back(i);
    return effects;
}

}  // namespace courthand::tournament
