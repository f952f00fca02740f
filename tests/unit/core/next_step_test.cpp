// The one line that says what must happen before the next service.
#include <gtest/gtest.h>

#include "courthand/rules/judge.h"
#include "random_play.h"
#include "tests/testkit/jersey.h"

namespace courthand {
namespace {

using Kind = Prompt::Kind;

using testing::no;

class NextStep : public ::testing::Test {
  protected:
    void play(std::size_t facts) {
        const auto all = testing::opening();
        state = fold(rules, std::span<const Entry>{all}.first(facts), state);
    }
    void say(const Fact& fact) {
        VerdictList raised;
        apply(rules, state, {1, fact}, raised);
    }
    [[nodiscard]] Prompt next() const { return next_step(rules, state); }

    Rules rules = find_profile("international-2025")->rules;
    MatchState state{};
};

TEST_F(NextStep, LeadsFromTheRosterToTheService) {
    EXPECT_EQ(next().kind, Kind::roster_missing);
    play(1);
    EXPECT_EQ(next(), (Prompt{Kind::roster_missing, Team::B, {}}));
    state = {};
    play(2);
    EXPECT_EQ(next().kind, Kind::toss_missing);
    state = {};
    play(3);
    EXPECT_EQ(next().kind, Kind::set_to_start);
    state = {};
    play(4);
    EXPECT_EQ(next(), (Prompt{Kind::lineup_missing, Team::A, {}}));
    state = {};
    play(6);
    EXPECT_EQ(next(), (Prompt{Kind::check_missing, Team::A, {}}));
    state = {};
    play(8);
    EXPECT_EQ(next(), (Prompt{Kind::serve, Team::A, {no(1), {}}}));
    say(Serve{});
    EXPECT_EQ(next().kind, Kind::decide_rally);
}

TEST_F(NextStep, ABlankBoxIsAskedForBeforeTheCheck) {
    play(5);
    LineUp sheet{Team::B, {no(31), no(32), no(33), no(34), no(35), no(36)}, {}, no(33)};
    say(sheet);
    EXPECT_EQ(next(), (Prompt{Kind::libero_box_open, Team::B, {}}));
    say(LiberoBoxSettled{Team::B, 0, {LiberoBox::Mark::number, no(41)}});
    EXPECT_EQ(next().kind, Kind::libero_box_open);
    say(LiberoBoxSettled{Team::B, 1, {LiberoBox::Mark::none, {}}});
    EXPECT_EQ(next().kind, Kind::check_missing);
}

TEST_F(NextStep, WhereBoxesNeedNoConfirmationTheyAreNotAskedFor) {
    rules = find_profile("us-high-school-2024")->rules;
    play(5);
    say(LineUp{Team::B, {no(31), no(32), no(33), no(34), no(35), no(36)}, {}, no(33)});
    EXPECT_EQ(next().kind, Kind::check_missing);
}

TEST_F(NextStep, TellsAllThatMustHappenInTheOrderOfTheTable) {
    play(8);
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(LiberoReplacement{Team::B, no(41), no(35)});
    say(RallyWon{Team::B});
    say(RallyWon{Team::A});
    say(Misconduct{Team::A, no(3), Sanction::disqualification});
    std::vector<Prompt> all;
    for (const Prompt& prompt : next_steps(rules, state)) all.push_back(prompt);
    EXPECT_EQ(all, (std::vector<Prompt>{
                       {Kind::barred_must_leave, Team::A, {no(3), {}}},
                       {Kind::libero_must_leave, Team::A, {no(5), no(21)}},
                       {Kind::libero_must_leave, Team::B, {no(35), no(41)}},
                       {Kind::serve, Team::A, {expected_server(state.set.team.a), {}}},
                   }));
    EXPECT_EQ(next(), all.front());
}

TEST_F(NextStep, NamesWhoReturnsForTheLiberoWhoWouldServeWhereHeMayNot) {
    play(8);
    say(LiberoReplacement{Team::A, no(21), no(1)});
    EXPECT_EQ(next(), (Prompt{Kind::libero_must_leave, Team::A, {no(1), no(21)}}));
    say(LiberoReplacement{Team::A, no(1), no(21)});
    EXPECT_EQ(next().kind, Kind::serve);
}

TEST_F(NextStep, ALiberoWhoMayServeIsToldOnlyOfASecondPlace) {
    rules = find_profile("us-domestic-2014")->rules;
    play(8);
    say(LiberoReplacement{Team::A, no(21), no(1)});
    EXPECT_EQ(next(), (Prompt{Kind::serve, Team::A, {no(21), {}}}));
    state.set.team.a.serving_slot = 2;  // he has served from another
    EXPECT_EQ(next(), (Prompt{Kind::libero_must_leave, Team::A, {no(1), no(21)}}));
    state.set.serving = Team::B;
    EXPECT_EQ(next().kind, Kind::serve) << "he may stand there while the others serve";
}

TEST_F(NextStep, NamesWhoReturnsForTheLiberoInTheFrontRow) {
    play(8);
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(RallyWon{Team::B});
    say(RallyWon{Team::A});
    EXPECT_EQ(next(), (Prompt{Kind::libero_must_leave, Team::A, {no(5), no(21)}}));
    say(LiberoReplacement{Team::A, no(5), no(21)});
    EXPECT_EQ(next().kind, Kind::serve);
}

TEST_F(NextStep, AsksForACaptainAndForABarredPlayerToLeave) {
    play(8);
    Substitution out{Team::A, 1, {}};
    out.pairs[0] = {no(12), no(3)};
    say(out);
    EXPECT_EQ(next(), (Prompt{Kind::captain_to_name, Team::A, {}}));
    say(GameCaptain{Team::A, no(2)});
    say(Misconduct{Team::A, no(2), Sanction::expulsion});
    EXPECT_EQ(next(), (Prompt{Kind::barred_must_leave, Team::A, {no(2), {}}}));
}

TEST_F(NextStep, AnEmptyPlaceIsNamedFirst) {
    play(4);
    say(LineUp{Team::A, {no(1), no(2), no(3), no(4), no(5), {}}, {}, no(3)});
    play(0);
    say(LiberoBoxSettled{Team::A, 0, {LiberoBox::Mark::none, {}}});
    say(LiberoBoxSettled{Team::A, 1, {LiberoBox::Mark::none, {}}});
    say(LineUp{Team::B,
               {no(31), no(32), no(33), no(34), no(35), no(36)},
               {{{LiberoBox::Mark::none, {}}, {LiberoBox::Mark::none, {}}}},
               no(33)});
    say(LineUpChecked{Team::A});
    say(LineUpChecked{Team::B});
    EXPECT_EQ(next().kind, Kind::place_empty);
}

TEST_F(NextStep, InTheDeciderATossAndTheChangeOfCourtsAreDue) {
    rules.format.sets = 3;
    play(8);
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::A});
    EXPECT_EQ(next().kind, Kind::set_to_start);
    say(Interval{});
    say(SetStarted{2});
    for (int i = 0; i < 25; ++i) say(RallyWon{Team::B});
    EXPECT_EQ(next().kind, Kind::toss_missing);
    say(Toss{Team::B, Team::A});
    say(SetStarted{3});
    EXPECT_EQ(state.set.serving, Team::B);
    say(Toss{Team::A, Team::B});
    EXPECT_EQ(state.set.serving, Team::A);
    for (const std::size_t i : {4U, 5U, 6U, 7U}) say(testing::opening()[i].fact);
    for (int i = 0; i < 8; ++i) say(RallyWon{Team::A});
    EXPECT_EQ(next().kind, Kind::courts_to_switch);
    say(CourtSwitch{});
    EXPECT_EQ(state.set.left, Team::A);
    for (int i = 0; i < 7; ++i) say(RallyWon{Team::A});
    EXPECT_EQ(next(), (Prompt{Kind::match_finished, Team::A, {}}));
}

}  // namespace
}  // namespace courthand
