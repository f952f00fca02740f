// Plays match graphs to their end, for the tests.
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

#include "courthand/draw/random.h"
#include "courthand/tournament/brackets.h"

namespace courthand::tournament {

using Add = Faults (*)(Graph&, const std::vector<SourceIndex>&, const BracketOptions&);

inline Graph bracket(Add add, TeamNumber teams, const BracketOptions& options = {}) {
    Field field = field_of(teams);
    const Faults faults = add(field.graph, field.entrants, options);
    EXPECT_TRUE(faults.empty()) << faults.front().message;
    return field.graph;
}

/// The index of a match by its name.
inline MatchIndex match_called(const Graph& graph, const std::string& name) {
    for (MatchIndex m = 0; m < graph.matches.size(); ++m)
        if (graph.matches[m].name == name) return m;
    ADD_FAILURE() << name;
    return 0;
}

/// "team 4 - team 5", "team 1 - winner of CH1".
inline std::string sides(const Graph& graph, const std::string& name) {
    const Match& m = graph.matches[match_called(graph, name)];
    return in_words(graph, m.sides[0]) + " - " + in_words(graph, m.sides[1]);
}

/// What became of the teams, by team number less one.
struct Played {
    Outcomes outcomes;
    std::vector<int> matches;
    std::vector<int> losses;
    std::vector<int> places;  ///< the first of the range
};

/// `first_wins` says who wins of two teams.
inline Played play(const Graph& graph,
                   const std::function<bool(TeamNumber, TeamNumber)>& first_wins) {
    Played played;
    played.outcomes.matches.assign(graph.matches.size(), Winner::unknown);
    played.matches.assign(graph.teams, 0);
    played.losses.assign(graph.teams, 0);
    played.places.assign(graph.teams, 0);
    std::vector<Settled> settled = settle(graph, played.outcomes);
    for (std::size_t m = 0; m < graph.matches.size(); ++m) {
        const Match& match = graph.matches[m];
        const bool known = settled[match.sides[0]].known() && settled[match.sides[1]].known();
        if (!known) settled = settle(graph, played.outcomes);
        const Settled& a = settled[match.sides[0]];
        const Settled& b = settled[match.sides[1]];
        EXPECT_EQ(a.state, Settled::State::team) << match.name << " " << a.why;
        EXPECT_EQ(b.state, Settled::State::team) << match.name << " " << b.why;
        if (match.only_if_second_won &&
            played.outcomes.matches[*match.only_if_second_won] == Winner::first)
            continue;
        const bool first = first_wins(a.team, b.team);
        played.outcomes.matches[m] = first ? Winner::first : Winner::second;
        ++played.matches[a.team - 1U];
        ++played.matches[b.team - 1U];
        ++played.losses[(first ? b.team : a.team) - 1U];
    }
    EXPECT_TRUE(faults_of(graph, played.outcomes).empty());
    settled = settle(graph, played.outcomes);
    for (const FinalPlace& p : graph.places) {
        EXPECT_EQ(settled[p.source].state, Settled::State::team);
        int& place = played.places[settled[p.source].team - 1U];
        EXPECT_EQ(place, 0) << "team " << settled[p.source].team << " has two places";
        place = p.first;
    }
    return played;
}

inline bool better_seed_wins(TeamNumber a, TeamNumber b) {
    return a < b;
}

}  // namespace courthand::tournament
