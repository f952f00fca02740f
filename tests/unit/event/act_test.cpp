// Whether what a person says still comes to the same when others have spoken meanwhile.
#include "courthand/event/act.h"

#include "event_of.h"

namespace courthand::event {
namespace {

using testing::facts_of;
using testing::small_cup;
using testing::state_of;

struct Case {
    const char* what;
    const char* came;  ///< since the person looked
    const char* said;
    bool overtaken;
};

constexpr const char* signed_result =
    "result A1 signed-record 25-20 25-20 record 0190a5f0000070008000000000000001 "
    "head 00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff\n";

TEST(Act, IsOvertakenByWhatChangesItAndByNothingElse) {
    const Case cases[]{
        {"nothing came", "", "result A1 paper 25-20 25-20\n", false},
        {"a result of another pool", "result B1 paper 25-20 25-20\n",
         "result A1 paper 25-20 25-20\n", false},
        {"another match of the pool", "result A2 paper 25-20 25-20\n",
         "result A1 paper 25-20 25-20\n", false},
        {"the result is there by now", "result A1 paper 25-20 25-20\n",
         "result A1 paper 25-10 25-10\n", true},
        {"the same result", "result A1 paper 25-20 25-20\n", "result A1 paper 25-20 25-20\n", true},
        {"its team has left: what was played was played", "withdrawn \"Harbour Lights\"\n",
         "result A1 paper 25-20 25-20\n", false},
        {"a note about the same match", "note match A1 words \"wet floor\"\n",
         "note match A1 words \"dry floor\"\n", false},
        {"a court", "court 2 called \"Quay\"\n", "court 1 called \"Harbour\"\n", false},
        {"the same court", "court 1 called \"Quay\"\n", "court 1 called \"Harbour\"\n", true},
        {"a record of the match was opened", "record A1 0190a5f0000070008000000000000001\n",
         "result A1 paper 25-20 25-20\n", true},
        {"a record of another match was opened", "record A2 0190a5f0000070008000000000000001\n",
         "result A1 paper 25-20 25-20\n", false},
        {"somebody else has said who confirms", "results-by desk\n", "results-by signatures\n",
         true},
        {"signatures confirm no more", "results-by desk\n", signed_result, true},
        {"nor do they when it is said anew", "results-by signatures\n", signed_result, true},
        {"of who confirms the desk's own result knows nothing", "results-by desk\n",
         "result A1 paper 25-20 25-20\n", false},
        {"a court, and a signed result", "court 1 called \"Quay\"\n", signed_result, false},
        {"nothing to take back any more", "take-back 10\n", "take-back 10\n", true},
    };
    for (const Case& one : cases) {
        const TournamentState then = state_of(small_cup());
        const TournamentState now = state_of(small_cup() + one.came);
        ASSERT_EQ(now.last(), then.last() + (*one.came == '\0' ? 0 : 1)) << one.what;
        const auto said = facts_of(one.said);
        ASSERT_FALSE(said.empty()) << one.what;
        EXPECT_EQ(overtaken(then, now, said, meaning_of(now, said)), one.overtaken) << one.what;
    }
}

TEST(Act, IsOvertakenByWhatChangesWhatItMakes) {
    const std::string seeds = "seeds U16 teams \"Saltmarsh\" \"Mill Lane\"\n";
    const std::string draw = "draw U16 serpentine pools 2\n";
    const std::string bracket = "bracket U16 single prefix M size 4\n";
    const std::string entered = "team \"Harbour Gate\" in U16\n";
    const std::string court = "court 2 called \"Quay\"\n";
    const struct {
        const char* what;
        std::string came;
        std::string said;
        bool overtaken;
    } cases[]{{"seeds, and a draw", seeds, draw, true},
              {"seeds, and a bracket of the seeds", seeds, bracket, true},
              {"a team more, and a draw", entered, draw, true},
              {"a court, and a draw", court, draw, false},
              {"a court, and a bracket", court, bracket, false}};
    std::string undrawn = small_cup();
    undrawn.erase(undrawn.find("draw U16"));
    for (const auto& one : cases) {
        const TournamentState then = state_of(undrawn);
        const TournamentState now = state_of(undrawn + one.came);
        const auto said = facts_of(one.said);
        const Meaning means = meaning_of(now, said);
        EXPECT_TRUE(means.findings.empty()) << one.what;
        EXPECT_EQ(overtaken(then, now, said, means), one.overtaken) << one.what;
    }
}

TEST(Act, NeedsAReasonWhereItChangesAFrozenList) {
    const std::string frozen = small_cup() + "roster \"Mill Lane\" numbers 1 2 3\n";
    const struct {
        const char* what;
        std::string before;
        std::vector<Said> said;
        std::size_t missing;
    } cases[]{
        {"the first freezing", small_cup(), {{RosterFrozen{"Mill Lane", {1, 2}}, ""}}, 0},
        {"one player more", frozen, {{RosterFrozen{"Mill Lane", {1, 2, 3, 4}}, ""}}, 1},
        {"blanks say nothing", frozen, {{RosterFrozen{"Mill Lane", {1, 2}}, " \n"}}, 1},
        {"for a reason", frozen, {{RosterFrozen{"Mill Lane", {1, 2}}, "ill"}}, 0},
        {"in another order", frozen, {{RosterFrozen{"Mill Lane", {3, 1, 2}}, ""}}, 0},
        {"a number twice has no effect", frozen, {{RosterFrozen{"Mill Lane", {3, 3}}, ""}}, 0},
        {"frozen and changed in one act",
         small_cup(),
         {{RosterFrozen{"Mill Lane", {1}}, ""}, {RosterFrozen{"Mill Lane", {2}}, ""}},
         1},
        {"the freezing taken back", frozen, {{TakenBack{11}, ""}}, 1},
        {"the freezing taken back for a reason", frozen, {{TakenBack{11}, "too early"}}, 0},
        {"a court taken back", frozen + "court 1\n", {{TakenBack{12}, ""}}, 0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(one.before);
        const auto missing = objections(state, one.said);
        ASSERT_EQ(missing.size(), one.missing) << one.what;
        if (missing.empty()) continue;
        EXPECT_EQ(missing[0].fact, state.last() + one.said.size()) << one.what;
        EXPECT_EQ(missing[0].problem, Problem::reason_missing) << one.what;
        EXPECT_EQ(missing[0].fault.place, "Mill Lane") << one.what;
    }
}

TEST(Act, NeedsAReasonWhereATeamWithAFrozenListIsTakenBack) {
    // Entered again it could have any list.
    const std::string frozen = small_cup() + "roster \"Mill Lane\" numbers 1 2 3\n";
    const Said entered{TeamEntered{"Mill Lane", "U16", ""}, ""};
    const Said other{RosterFrozen{"Mill Lane", {4, 5}}, ""};
    const struct {
        const char* what;
        std::vector<Said> said;
        std::size_t missing;
    } cases[]{
        {"its entry", {{TakenBack{4}, ""}}, 1},
        {"its division", {{TakenBack{2}, ""}}, 1},
        {"its entry and its freezing", {{TakenBack{4}, ""}, {TakenBack{11}, ""}}, 1},
        {"its freezing after its entry for a reason",
         {{TakenBack{4}, "x"}, {TakenBack{11}, ""}},
         0},
        {"for another list in one act", {{TakenBack{4}, ""}, entered, other}, 1},
        {"for a reason", {{TakenBack{4}, "entered twice"}, entered, other}, 0},
        {"a team without a list", {{TakenBack{5}, ""}}, 0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(frozen);
        const auto missing = objections(state, one.said);
        ASSERT_EQ(missing.size(), one.missing) << one.what;
        if (missing.empty()) continue;
        EXPECT_EQ(missing[0].fact, state.last() + 1) << one.what;
        EXPECT_EQ(missing[0].problem, Problem::reason_missing) << one.what;
        EXPECT_EQ(missing[0].fault.place, "Mill Lane") << one.what;
    }
}

/// Player `person` of Mill Lane, or of another team.
Said listed(std::uint16_t person, Jersey jersey, const std::string& team = "Mill Lane",
            const std::string& name = "") {
    PersonListed fact;
    fact.person = person;
    fact.role = Role::player;
    fact.team = team;
    fact.jersey = jersey;
    return {fact, name};
}

Said listed_as_captain(std::uint16_t person, Jersey jersey) {
    Said said = listed(person, jersey);
    std::get<PersonListed>(said.fact).captain = true;
    return said;
}

TEST(Act, NeedsAReasonWhereItChangesThePeopleOfAFrozenList) {
    const std::string frozen = small_cup() +
                               "person 1 player team \"Mill Lane\" jersey 1 captain\n"
                               "person 2 player team \"Mill Lane\" jersey 2 libero\n"
                               "person 9 coach team \"Mill Lane\"\n"
                               "roster \"Mill Lane\" numbers 1 2 3\n";
    const Said again{RosterFrozen{"Mill Lane", {1, 2, 3}}, "number 2 is hurt"};
    const Said again_without{RosterFrozen{"Mill Lane", {1, 2, 3}}, ""};
    const Said gone = listed(2, Jersey{}, "");
    const struct {
        const char* what;
        std::vector<Said> said;
        std::size_t missing;
    } cases[]{
        {"who wears a number of which only that was told", {listed(3, Jersey{3})}, 0},
        {"and then another", {listed(3, Jersey{3}), listed(4, Jersey{3})}, 1},
        {"a number that is not on the list", {listed(3, Jersey{7})}, 0},
        {"the same as before, with another spelling of the name",
         {listed_as_captain(1, Jersey{1})},
         0},
        {"a player goes", {gone}, 1},
        {"a player goes to another team", {listed(2, Jersey{2}, "Saltmarsh")}, 1},
        {"a player becomes a coach", {{PersonListed{2, Role::coach, "Mill Lane", {}}, ""}}, 1},
        {"another number of the list", {listed(2, Jersey{3})}, 1},
        {"somebody else wears the number", {listed(3, Jersey{2})}, 1},
        {"no longer the captain", {listed(1, Jersey{1})}, 1},
        {"no longer a libero", {listed(2, Jersey{2})}, 1},
        {"the name is no reason", {listed(3, Jersey{2}, "Mill Lane", "Kim")}, 1},
        {"a list frozen anew without a reason", {gone, again_without}, 1},
        {"frozen anew for a reason", {gone, listed(3, Jersey{2}), again}, 0},
        {"the reason comes first", {again, gone}, 0},
        {"that of another list", {gone, {RosterFrozen{"Saltmarsh", {1}}, "late"}}, 1},
        {"its coach", {{PersonListed{9, Role::coach, "Saltmarsh", {}}, ""}}, 0},
        {"a listing taken back", {{TakenBack{12}, ""}}, 1},
        {"a listing taken back for a reason", {{TakenBack{12}, "went home"}}, 0},
        {"that of the coach", {{TakenBack{13}, ""}}, 0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(frozen);
        const auto missing = objections(state, one.said);
        ASSERT_EQ(missing.size(), one.missing) << one.what;
        if (missing.empty()) continue;
        EXPECT_EQ(missing[0].problem, Problem::reason_missing) << one.what;
        EXPECT_EQ(missing[0].fault.place, "Mill Lane") << one.what;
        EXPECT_NE(missing[0].fault.cure.find("reason"), std::string::npos) << one.what;
    }
}

TEST(Act, DoesNotMoveTimesByATimeZoneThatComesLate) {
    const std::string opened = small_cup().substr(0, small_cup().find('\n') + 1);
    const std::string unopened = small_cup().substr(opened.size());
    const std::string court = "court 1\n";
    const std::string timed = "place A1 court 1 at 2026-11-28T10:00\n";
    std::string utc = opened;
    utc.replace(utc.find("Europe/London"), 13, "UTC");
    std::string backwards = opened;
    backwards.replace(backwards.find("2026-11-28"), 10, "2026-11-30");
    const struct {
        const char* what;
        std::string before;
        std::string said;
        std::size_t objections;
    } cases[]{
        {"nothing is planned", unopened + court, opened, 0},
        {"a match without a time", unopened + court + "place A1 court 1\n", opened, 0},
        {"a time", unopened + court + timed, opened, 1},
        {"a time in the same act", unopened + court, timed + opened, 1},
        {"no longer placed", unopened + court + timed + "unplace A1\n", opened, 0},
        {"the time zone in which they are", unopened + court + timed, utc, 0},
        {"open already", opened + unopened + court + timed, opened, 0},
        {"a wrong time zone put right", opened + unopened + court + timed + "take-back 1\n", opened,
         0},
        {"said while its opening was taken back, which comes back",
         opened + unopened + court + "take-back 1\n" + timed, "take-back 12\n", 1},
        {"all of that in one act", opened + unopened + court,
         "take-back 1\n" + timed + "take-back 12\n", 1},
        {"said while its opening was taken back, opened anew",
         opened + unopened + court + "take-back 1\n" + timed, opened, 1},
        {"of an opening that was taken back before there was a time",
         opened + "take-back 1\n" + unopened + court + timed, opened, 1},
        {"of an opening that never took effect", backwards + unopened + court + timed, opened, 1},
        {"no longer placed, which is taken back once it is open",
         unopened + court + timed + "unplace A1\n" + opened, "take-back 12\n", 1},
        {"placed anew, which is taken back", unopened + court + timed + opened + timed,
         "take-back 13\n", 1},
        {"moved by a record of before, and something else is taken back",
         unopened + court + timed + opened + "court 2\n", "take-back 13\n", 0},
        {"placed anew behind it", unopened + court + timed, opened + timed, 0},
        {"one of two placed anew",
         unopened + court + timed + "place A2 court 1 at 2026-11-28T11:00\n", opened + timed, 1},
        {"moved behind it", unopened + court + timed,
         opened + "move A1 court 1 at 2026-11-28T11:00\n", 0},
    };
    for (const auto& one : cases) {
        const TournamentState state = state_of(one.before);
        std::vector<Said> said;
        for (const Fact& fact : facts_of(one.said)) said.push_back({fact, ""});
        const auto found = objections(state, said);
        ASSERT_EQ(found.size(), one.objections) << one.what;
        if (found.empty()) continue;
        EXPECT_EQ(found[0].problem, Problem::zone_late) << one.what;
        EXPECT_TRUE(forbids(found[0].problem));
        EXPECT_NE(found[0].fault.cure.find("UTC"), std::string::npos);
    }
}

TEST(Act, GivesNoFormatOfWhichNoSetCanBePlayed) {
    const std::string cup = small_cup();
    const std::string division =
        "division U18 profile international-2021 chain international-2017 ";
    const struct {
        const char* what;
        std::string said;
        const char* place;  ///< empty: nothing is objected to
    } cases[]{
        {"a division", division + "format best-of 3 points 25 cap 20\n", "division U18"},
        {"a draw", division + "\ndraw U18 by-hand pools 1 format sets 2 cap 9\n", "draw of U18"},
        {"a bracket", "bracket U16 single prefix N format best-of 3 cap 2\n", "bracket N"},
        {"a match", "match F in U16 first \"Mill Lane\" second \"Saltmarsh\" format sets 2 cap 9\n",
         "F"},
        {"one that can be", division + "format best-of 3 points 25 cap 27\n", ""},
        {"that of the profile", division + "\n", ""},
    };
    for (const auto& one : cases) {
        std::vector<Said> said;
        for (const Fact& fact : facts_of(one.said)) said.push_back({fact, "as agreed"});
        const auto found = objections(state_of(cup), said);
        ASSERT_EQ(found.size(), *one.place == '\0' ? 0u : 1u) << one.what;
        if (found.empty()) continue;
        EXPECT_EQ(found[0].problem, Problem::format_impossible) << one.what;
        EXPECT_TRUE(forbids(found[0].problem));
        EXPECT_EQ(found[0].fault.place, one.place);
        EXPECT_NE(found[0].fault.message.find("is below its"), std::string::npos) << one.what;
    }
}

/// What stands in a record stays as it was understood.
TEST(Act, WithAFormatThatIsObjectedToIsFoldedAsItWasWhenItWasKept) {
    const std::string division =
        "division U16 profile international-2021 chain international-2017 format best-of 1 ";
    const std::string rest =
        "\nteam \"Mill Lane\" in U16\nteam \"Quayside\" in U16\n"
        "match F in U16 first \"Mill Lane\" second \"Quayside\"\n";
    const struct {
        const char* format;
        const char* score;
        SetScore counts;
    } cases[]{{"points 25 deciding 25 cap 20 deciding-cap 20", "20-18", {20, 18}},
              {"deciding 25 deciding-cap 20 start 20", "21-20", {21, 20}},
              {"deciding 25 start 25", "27-25", {27, 25}}};
    for (const auto& one : cases) {
        const TournamentState state =
            state_of(division + one.format + rest + "result F paper " + one.score + "\n");
        EXPECT_TRUE(state.findings.empty())
            << one.format << ": " << state.findings.front().fault.message;
        ASSERT_EQ(state.teams.size(), 2u) << one.format;
        const MatchState& match = state.match(*state.find_match("F"));
        ASSERT_TRUE(match.result && match.result_counts) << one.format;
        EXPECT_EQ(match.result->sets, std::vector{one.counts}) << one.format;
        EXPECT_EQ(match.winner, tournament::Winner::first) << one.format;
    }
}

TEST(Act, MeansItsOwnFindingsAndWhatItChanges) {
    const TournamentState state = state_of(small_cup() + "result Z9 paper 25-20 25-20\n");
    ASSERT_EQ(state.findings.size(), 1u);
    const Meaning means =
        meaning_of(state, facts_of("result A1 paper 25-20 25-20\nresult A1 paper 25-20 25-20\n"));
    ASSERT_EQ(means.findings.size(), 1u) << "not that of an earlier fact";
    EXPECT_EQ(means.findings[0].fact, state.last() + 2);
    EXPECT_EQ(means.findings[0].problem, Problem::result_there);
    EXPECT_EQ(means.effects.matches, (std::vector<std::string>{"A1"}));
    EXPECT_TRUE(meaning_of(state, {}).effects.none());
}

}  // namespace
}  // namespace courthand::event
