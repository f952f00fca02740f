#include <fmt/format.h>

#include <utility>

#include "courthand/tournament/graph.h"

namespace courthand::tournament {
namespace {

[[nodiscard]] Settled open(std::string why) {
    return {Settled::State::open, 0, std::move(why)};
}

class Settlement {
  public:
    Settlement(const Graph& graph, const Outcomes& outcomes)
        : graph_{graph},
          outcomes_{outcomes},
          done_(graph.sources.size(), false),
          settled_(graph.sources.size()) {}

    std::vector<Settled> all() {
        for (SourceIndex s = 0; s < graph_.sources.size(); ++s) (void)source(s);
        return std::move(settled_);
    }

  private:
    const Settled& source(SourceIndex index) {
        if (!done_[index]) {
            Settled found = of(graph_.sources[index]);
            settled_[index] = std::move(found);
            done_[index] = true;
        }
        return settled_[index];
    }

    Settled of(const Source& s) {
        switch (s.kind) {
            case Source::Kind::team:
                return {Settled::State::team, static_cast<TeamNumber>(s.of), {}};
            case Source::Kind::place:
                return place(s);
            case Source::Kind::winner:
                return side_of(static_cast<MatchIndex>(s.of), true);
            case Source::Kind::loser:
                return side_of(static_cast<MatchIndex>(s.of), false);
            case Source::Kind::better:
            case Source::Kind::worse:
                return compared(s);
            case Source::Kind::bye:
                break;
        }
        return {Settled::State::bye, 0, {}};
    }

    Settled place(const Source& s) {
        const bool given =
            s.of < outcomes_.pools.size() && s.second <= outcomes_.pools[s.of].size();
        const TeamNumber team = given ? outcomes_.pools[s.of][s.second - 1] : TeamNumber{0};
        if (team != 0) return {Settled::State::team, team, {}};
        return open(
            fmt::format("place {} of pool {} is not decided", s.second, graph_.pools[s.of].name));
    }

    [[nodiscard]] Winner winner_of(MatchIndex match) const {
        return match < outcomes_.matches.size() ? outcomes_.matches[match] : Winner::unknown;
    }

    Settled side_of(MatchIndex match, bool winner) {
        const Match& m = graph_.matches[match];
        if (m.only_if_second_won) {
            const Winner before = winner_of(*m.only_if_second_won);
            if (before == Winner::unknown)
                return open(fmt::format("whether {} is played hangs on {}", m.name,
                                        graph_.matches[*m.only_if_second_won].name));
            if (before == Winner::first) return source(m.sides[winner ? 0 : 1]);
        }
        // Nobody plays against a bye: the other side wins without a result.
        const bool first_bye = source(m.sides[0]).state == Settled::State::bye;
        const bool second_bye = source(m.sides[1]).state == Settled::State::bye;
        if (first_bye || second_bye) {
            const std::size_t wins = first_bye ? 1 : 0;
            return source(m.sides[winner ? wins : 1 - wins]);
        }
        const Winner result = winner_of(match);
        if (result != Winner::unknown)
            return source(m.sides[(result == Winner::first) == winner ? 0 : 1]);
        for (const SourceIndex side : m.sides)
            if (!source(side).known())
                return open(fmt::format("{} waits: {}", m.name, source(side).why));
        return open(fmt::format("{} has no confirmed result", m.name));
    }

    Settled compared(const Source& s) {
        const Settled& a = source(s.of);
        const Settled& b = source(s.second);
        for (const Settled* side : {&a, &b})
            if (!side->known()) return *side;
        const bool better = s.kind == Source::Kind::better;
        if (a.state == Settled::State::bye) return better ? b : a;
        if (b.state == Settled::State::bye) return better ? a : b;
        const auto& rating = outcomes_.rating;
        if (a.team > rating.size() || b.team > rating.size())
            return open(fmt::format("teams {} and {} have no rating to compare", a.team, b.team));
        const auto of_a = rating[a.team - 1U];
        const auto of_b = rating[b.team - 1U];
        if (of_a == of_b)
            return open(fmt::format("teams {} and {} are rated equal", a.team, b.team));
        return (of_a < of_b) == better ? a : b;
    }

    const Graph& graph_;
    const Outcomes& outcomes_;
    std::vector<bool> done_;
    std::vector<Settled> settled_;
};

}  // namespace

std::vector<Settled> settle(const Graph& graph, const Outcomes& outcomes) {
    return Settlement{graph, outcomes}.all();
}

Faults faults_of(const Graph& graph, const Outcomes& outcomes) {
    Faults faults;
    if (outcomes.matches.size() > graph.matches.size())
        return {{"results", "more results than matches", "give the results of this graph"}};
    const std::vector<Settled> settled = settle(graph, outcomes);
    for (std::size_t i = 0; i < outcomes.matches.size(); ++i) {
        if (outcomes.matches[i] == Winner::unknown) continue;
        const Match& m = graph.matches[i];
        for (const SourceIndex side : m.sides) {
            const Settled& s = settled[side];
            if (s.state == Settled::State::open)
                faults.push_back(
                    {m.name,
                     fmt::format("a result, but {} is not known: {}", in_words(graph, side), s.why),
                     "confirm the result that is missing first, or take this one back"});
            if (s.state == Settled::State::bye)
                faults.push_back({m.name, "a result against a bye", "take it back"});
        }
        if (!m.only_if_second_won) continue;
        const std::size_t before = *m.only_if_second_won;
        const bool played =
            before < outcomes.matches.size() && outcomes.matches[before] == Winner::second;
        if (!played)
            faults.push_back(
                {m.name,
                 fmt::format("a result, but it is played only if the second side of {} "
                             "wins",
                             graph.matches[before].name),
                 "take it back"});
    }
    return faults;
}

}  // namespace courthand::tournament
