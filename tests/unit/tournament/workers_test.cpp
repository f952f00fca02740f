// Who works the matches of a bracket.
#include <map>

#include "played.h"

namespace courthand::tournament {
namespace {

std::string workers(const Graph& g, const std::string& name) {
    const auto w = g.matches[match_called(g, name)].workers;
    return w ? in_words(g, *w) : "from elsewhere";
}

// The 6-team bracket of a published 12-team day: w1, w2, then the losers in turn, and the loser of
// a semifinal works the final.
TEST(Workers, OfSixAsPublished) {
    BracketOptions options;
    options.prefix = "CH";
    Graph g = bracket(add_single_elimination, 6, options);
    assign_workers(g, 0);
    EXPECT_EQ(workers(g, "CH1"), "team 1");
    EXPECT_EQ(workers(g, "CH2"), "team 2");
    EXPECT_EQ(workers(g, "CH3"), "loser of CH1");
    EXPECT_EQ(workers(g, "CH4"), "loser of CH2");
    EXPECT_EQ(workers(g, "CH5"), "loser of CH3");
}

TEST(Workers, OfEightTheFirstRoundIsWorkedFromElsewhereAndTheFinalByASemifinalist) {
    Graph g = bracket(add_single_elimination, 8);
    assign_workers(g, 0);
    EXPECT_EQ(workers(g, "M1"), "from elsewhere");
    EXPECT_EQ(workers(g, "M5"), "loser of M1");
    EXPECT_EQ(workers(g, "M6"), "loser of M2");
    EXPECT_EQ(workers(g, "M7"), "loser of M5");
}

TEST(Workers, NobodyWorksMoreThanOnceOrWhileHePlays) {
    for (const Add add :
         {&add_single_elimination, &add_double_elimination, &add_consolation, &add_placement})
        for (TeamNumber n = 2; n <= 64; ++n) {
            Graph g = bracket(add, n);
            assign_workers(g, 0);
            EXPECT_TRUE(faults_of(g).empty());
            const Played p = play(g, better_seed_wins);
            const auto settled = settle(g, p.outcomes);
            std::map<int, int> after_last;
            std::vector<int> left(n, 0);
            for (const Match& m : g.matches)
                for (const SourceIndex s : m.sides) ++left[settled[s].team - 1U];
            for (const Match& m : g.matches) {
                if (m.workers) {
                    const TeamNumber team = settled[*m.workers].team;
                    for (const SourceIndex s : m.sides) EXPECT_NE(settled[s].team, team);
                    if (left[team - 1U] == 0) ++after_last[team];
                }
                for (const SourceIndex s : m.sides) --left[settled[s].team - 1U];
            }
            for (const auto& [team, count] : after_last) EXPECT_EQ(count, 1) << team;
        }
}

}  // namespace
}  // namespace courthand::tournament
