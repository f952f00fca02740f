#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "courthand/tournament/graph.h"
#include "tournament/links.h"

namespace courthand::tournament {
namespace {

class Check {
  public:
    explicit Check(const Graph& graph) : graph_{graph} {}

    Faults run() {
        sizes();
        if (faults_.empty()) indices();
        if (faults_.empty()) names();
        if (faults_.empty()) circles();
        if (faults_.empty()) ways();
        return faults_;
    }

  private:
    void say(std::string place, std::string message, std::string cure) {
        faults_.push_back({std::move(place), std::move(message), std::move(cure)});
    }

    void sizes() {
        const auto check = [&](std::size_t count, std::size_t most, std::string_view what) {
            if (count > most)
                say("graph", fmt::format("{} {}; {} at most", count, what, most),
                    "divide the event");
        };
        check(graph_.teams, Graph::most_teams, "teams");
        check(graph_.matches.size(), Graph::most_matches, "matches");
        check(graph_.sources.size(), Graph::most_sources, "sources");
    }

    [[nodiscard]] bool is_source(std::size_t index) const { return index < graph_.sources.size(); }

    [[nodiscard]] bool leads_somewhere(const Source& s) const {
        switch (s.kind) {
            case Source::Kind::team:
                return s.of >= 1 && s.of <= graph_.teams;
            case Source::Kind::place:
                return s.of < graph_.pools.size() && s.second >= 1 &&
                       s.second <= graph_.pools[s.of].teams.size();
            case Source::Kind::winner:
            case Source::Kind::loser:
                return s.of < graph_.matches.size();
            case Source::Kind::better:
            case Source::Kind::worse:
                return is_source(s.of) && is_source(s.second);
            case Source::Kind::bye:
                break;
        }
        return true;
    }

    void indices() {
        for (std::size_t i = 0; i < graph_.sources.size(); ++i)
            if (!leads_somewhere(graph_.sources[i]))
                say(fmt::format("source {}", i + 1),
                    "names a team, pool, place or match that is not there",
                    "name one of the graph");
        for (const Match& m : graph_.matches) {
            const bool good =
                is_source(m.sides[0]) && is_source(m.sides[1]) &&
                (!m.workers || is_source(*m.workers)) &&
                (!m.pool || *m.pool < graph_.pools.size()) &&
                (!m.only_if_second_won || *m.only_if_second_won < graph_.matches.size());
            if (!good)
                say(m.name, "a side, pool or condition that is not there", "give the match anew");
        }
        for (const PoolNode& p : graph_.pools) {
            const bool good =
                std::all_of(p.teams.begin(), p.teams.end(), [&](auto s) { return is_source(s); }) &&
                std::all_of(p.matches.begin(), p.matches.end(),
                            [&](auto m) { return m < graph_.matches.size(); });
            if (!good)
                say("pool " + p.name, "a team or match that is not there", "make the pool anew");
        }
        for (const FinalPlace& p : graph_.places)
            if (!is_source(p.source) || p.first == 0 || p.last < p.first)
                say(fmt::format("place {}", p.first), "leads nowhere", "make the bracket anew");
    }

    void names() {
        std::set<std::string_view> seen;
        for (const Match& m : graph_.matches)
            if (!seen.insert(m.name).second)
                say(m.name, "two matches of this name", "give one of them another name");
    }

    /// Takes away again and again what needs nothing that is left.
    void circles() {
        const Links links{graph_};
        std::vector<std::size_t> waits(links.count(), 0);
        std::vector<std::vector<std::size_t>> leads_to(links.count());
        std::vector<std::size_t> ready;
        for (std::size_t node = 0; node < links.count(); ++node) {
            const auto needed = links.needed_by(graph_, node);
            waits[node] = needed.size();
            for (const std::size_t n : needed) leads_to[n].push_back(node);
            if (needed.empty()) ready.push_back(node);
        }
        for (std::size_t i = 0; i < ready.size(); ++i)
            for (const std::size_t next : leads_to[ready[i]])
                if (--waits[next] == 0) ready.push_back(next);
        for (std::size_t m = 0; m < graph_.matches.size(); ++m)
            if (waits[links.match(m)] != 0) {
                say(graph_.matches[m].name, "waits for its own result",
                    "give it sides that are known before it");
                return;
            }
    }

    /// Outside pools every source leads to one side at most. In a pool it leads to the pool, and
    /// there to all its matches.
    void ways() {
        std::vector<int> ways(graph_.sources.size(), 0);
        for (const Match& m : graph_.matches)
            if (!m.pool && !m.only_if_second_won)
                for (const SourceIndex side : m.sides) ++ways[side];
        for (const PoolNode& p : graph_.pools)
            for (const SourceIndex team : p.teams) ++ways[team];
        for (SourceIndex s = 0; s < ways.size(); ++s) {
            if (graph_.sources[s].kind == Source::Kind::bye || ways[s] < 2) continue;
            say(in_words(graph_, s), fmt::format("has {} ways on", ways[s]),
                "let it play on in one match or pool");
        }
    }

    const Graph& graph_;
    Faults faults_;
};

}  // namespace

Faults faults_of(const Graph& graph) {
    return Check{graph}.run();
}

}  // namespace courthand::tournament
