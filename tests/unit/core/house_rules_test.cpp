// Parameters with values that no built-in profile has; a house profile may set them.
#include <vector>

#include "desk.h"

namespace courthand {
namespace {

using testing::no;
using testing::one_pair;

class HouseRules : public testing::Desk {
  protected:
    template <class Value>
    void play_with(Value Rules::*parameter, Value value) {
        Rules other = rules;
        other.*parameter = value;
        play_by(other);
    }
};

TEST_F(HouseRules, NoSubstitutionBeforeTheFirstServe) {
    play_with(&Rules::sub_before_first_serve, std::uint8_t{0});
    EXPECT_TRUE(raises(one_pair(Team::A, no(11), no(1)), Reason::sub_before_set));
    play_by(rules);
    say(RallyWon{Team::A});
    EXPECT_TRUE(say(one_pair(Team::A, no(11), no(1))).empty());
    // A penalty is a completed rally as well.
    play_by(rules);
    say(Misconduct{Team::B, no(31), Sanction::penalty});
    EXPECT_TRUE(say(one_pair(Team::A, no(11), no(1))).empty());
}

TEST_F(HouseRules, TheLiberoMayStandInForADisqualifiedPlayer) {
    say(Misconduct{Team::A, no(5), Sanction::disqualification});
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(21), no(5)}, Reason::libero_for_disqualified));
    play_with(&Rules::libero_for_disqualified, std::uint8_t{1});
    say(Misconduct{Team::A, no(5), Sanction::disqualification});
    EXPECT_TRUE(say(LiberoReplacement{Team::A, no(21), no(5)}).empty());
}

TEST_F(HouseRules, AnIllegalSubstitutionIsAnImproperRequest) {
    const Substitution wrong = one_pair(Team::A, no(99), no(1));
    say(wrong);
    EXPECT_EQ(remedy_for(Reason::sub_not_on_roster), Action::delay_warning);
    play_with(&Rules::illegal_request_is_delay, std::uint8_t{0});
    say(wrong);
    EXPECT_EQ(remedy_for(Reason::sub_not_on_roster), Action::record_only);
    accept(Reason::sub_not_on_roster, Team::A);
    EXPECT_EQ(state.team.a.improper_requests, 1);
    EXPECT_EQ(in_slot(Slot::I), no(1));
}

TEST_F(HouseRules, BoxesOfEverySetAreConfirmedWhereEverySetHasItsLiberos) {
    const auto blank_in_second_set = [this] {
        second_set();
        say(LineUp{Team::A, {no(1), no(2), no(3), no(4), no(5), no(6)}, {}, no(3)});
        return raises(Serve{}, Reason::libero_box_unconfirmed);
    };
    EXPECT_FALSE(blank_in_second_set());
    play_with(&Rules::designation, DesignationScope::set);
    EXPECT_TRUE(blank_in_second_set());
}

TEST_F(HouseRules, BoxesAreConfirmedAgainByATeamThatChoseOneLiberoForEachSet) {
    play_by(find_profile("us-domestic-2021")->rules);
    second_set();
    say(LineUp{Team::A, {no(1), no(2), no(3), no(4), no(5), no(6)}, {}, no(3)});
    say(LineUp{Team::B, {no(31), no(32), no(33), no(34), no(35), no(36)}, {}, no(33)});
    say(Serve{});
    std::vector<Team> unconfirmed;
    for (const Verdict& v : raised)
        if (v.reason == Reason::libero_box_unconfirmed) unconfirmed.push_back(v.team);
    EXPECT_EQ(unconfirmed, std::vector{Team::B});
}

// Austrian referee material, about 2019-20: the regular player first, then a completed rally
TEST_F(HouseRules, ALiberoDeclaredUnableOnCourtMayHaveToWaitForARally) {
    const auto new_libero_at_once = [this](Cause cause) {
        say(LiberoReplacement{Team::A, no(21), no(5)});
        say(RallyWon{Team::A});
        say(LiberoUnable{Team::A, no(22), Cause::injury});
        say(LiberoReplacement{Team::A, no(5), no(21)});
        say(RallyWon{Team::A});
        say(LiberoReplacement{Team::A, no(21), no(5)});
        say(LiberoUnable{Team::A, no(21), cause});
        say(Redesignation{Team::A, no(11), no(21)});
        return raises(LiberoReplacement{Team::A, no(11), no(21)},
                      Reason::libero_no_completed_rally);
    };
    EXPECT_FALSE(new_libero_at_once(Cause::declared));
    play_with(&Rules::declared_on_court, DeclaredOnCourt::after_rally);
    EXPECT_TRUE(new_libero_at_once(Cause::declared));
    play_with(&Rules::declared_on_court, DeclaredOnCourt::after_rally);
    EXPECT_FALSE(new_libero_at_once(Cause::injury));
}

// FIVB Official Volleyball Rules 2021-2024, rule 7.3.5.4, read as a flat 0-25; the German notice
// of 2013 leaves the team the points it had when the player came
TEST_F(HouseRules, AFinishedSetWithAnUnregisteredPlayerMayLeaveTheTeamNothing) {
    const auto score_of_first_set = [this] {
        for (int i = 0; i < 10; ++i) say(RallyWon{Team::A});
        say(one_pair(Team::A, no(77), no(1)));
        for (int i = 0; i < 15; ++i) say(RallyWon{Team::A});
        say(SetStarted{2});
        accept(Reason::player_unregistered, Team::A);
        return state.results[0].score;
    };
    EXPECT_EQ(score_of_first_set(), (Score{10, 25}));
    play_with(&Rules::unregistered_finished_set, UnregisteredSet::keeps_none);
    EXPECT_EQ(score_of_first_set(), (Score{0, 25}));
}

TEST_F(HouseRules, TheTeamCaptainMayBeLiberoWhereTheGameCaptainMayNot) {
    const LineUp sheet{Team::A,
                       {no(1), no(2), no(3), no(4), no(5), no(6)},
                       {LiberoBox{LiberoBox::Mark::number, no(21)}, {}},
                       {}};
    play_with(&Rules::libero_team_captain, std::uint8_t{0});
    state.team.a.captain = no(21);
    EXPECT_TRUE(raises(sheet, Reason::captain_is_libero));
    play_with(&Rules::libero_team_captain, std::uint8_t{1});
    state.team.a.captain = no(21);
    EXPECT_FALSE(raises(sheet, Reason::captain_is_libero));
}

// US high school rules: no replacement during a re-serve, but for a libero who cannot go on
TEST_F(HouseRules, AnInjuredLiberoLeavesDuringAReserve) {
    play_by(find_profile("us-high-school-2024")->rules);
    say(LiberoReplacement{Team::A, no(21), no(5)});
    say(RallyWon{Team::A});
    say(Serve{});
    say(Replay{});
    const MatchState before = state;
    EXPECT_TRUE(raises(LiberoReplacement{Team::A, no(5), no(21)}, Reason::libero_during_replay));
    state = before;
    say(Injury{Team::A, no(21)});
    EXPECT_TRUE(say(LiberoReplacement{Team::A, no(5), no(21)}).empty());
}

}  // namespace
}  // namespace courthand
