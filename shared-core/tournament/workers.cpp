#include <algorithm>

#include "courthand/tournament/brackets.h"

namespace courthand::tournament {
namespace {

/// Matches by wave: those of one wave can be played at the same time, each after the ones before.
class Waves {
  public:
    explicit Waves(const Graph& graph) : graph_{graph}, of_(graph.matches.size(), 0) {}

    std::size_t of_match(MatchIndex m) {
        if (of_[m] == 0) {
            std::size_t before = 0;
            for (const SourceIndex side : graph_.matches[m].sides)
                before = std::max(before, of_source(side));
            of_[m] = before + 1;
        }
        return of_[m];
    }

  private:
    std::size_t of_source(SourceIndex index) {
        const Source& s = graph_.sources[index];
        if (s.kind == Source::Kind::winner || s.kind == Source::Kind::loser)
            return of_match(static_cast<MatchIndex>(s.of));
        if (s.kind == Source::Kind::better || s.kind == Source::Kind::worse)
            return std::max(of_source(s.of), of_source(s.second));
        return 0;
    }

    const Graph& graph_;
    std::vector<std::size_t> of_;
};

/// Someone who could work: since which wave he is idle, and until which.
struct Idle {
    SourceIndex source;
    std::size_t since;  ///< 0: has not played
    std::size_t until;  ///< wave of his next match; 0: he is out
    bool used = false;
};

}  // namespace

void assign_workers(Graph& graph, MatchIndex first) {
    Waves waves{graph};
    std::vector<std::size_t> next(graph.sources.size(), 0);
    const auto count = static_cast<MatchIndex>(graph.matches.size());
    for (MatchIndex m = first; m < count; ++m)
        for (const SourceIndex side : graph.matches[m].sides)
            if (next[side] == 0) next[side] = waves.of_match(m);
    std::vector<Idle> idle;
    for (SourceIndex s = 0; s < graph.sources.size(); ++s) {
        const Source& source = graph.sources[s];
        const bool entrant =
            source.kind == Source::Kind::team || source.kind == Source::Kind::place;
        if (entrant && next[s] > 1) idle.push_back({s, 0, next[s]});
        if (source.kind == Source::Kind::loser && source.of >= first && next[s] == 0)
            idle.push_back({s, waves.of_match(static_cast<MatchIndex>(source.of)), 0});
    }
    for (MatchIndex m = first; m < count; ++m) {
        const std::size_t wave = waves.of_match(m);
        Idle* best = nullptr;
        for (Idle& i : idle) {
            const bool free = !i.used && i.since < wave && (i.until == 0 || wave < i.until);
            if (!free) continue;
            // A bye before a loser; of losers those of the round before.
            const auto rank = [](const Idle& x) {
                return x.until != 0 ? ~std::size_t{0} : x.since;
            };
            if (best == nullptr || rank(i) > rank(*best)) best = &i;
        }
        if (best == nullptr) continue;
        best->used = true;
        graph.matches[m].workers = best->source;
    }
}

}  // namespace courthand::tournament
