// The recorder of the seat, without a screen: corrections in the middle, undo by entry number, and
// the questions about faults found late.
#include <gtest/gtest.h>

#include <algorithm>

#include "memory_session.h"
#include "recorder.h"

namespace courthand::client::test {
namespace {

Jersey no(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

class RecorderDoors : public testing::Test {
  protected:
    RecorderDoors() { ready_to_serve(session); }
    void rally(Team team) { recorder.perform({Serve{}, RallyWon{team}}); }
    [[nodiscard]] Score score() const { return session.state().set.score; }
    [[nodiscard]] EntryNumber last() const {
        return static_cast<EntryNumber>(session.written().size());
    }

    MemorySession session{"us-domestic-2014", harbour_cup_sheet("us-domestic-2014")};
    Wording wording{{"Harbour Lights", "Mill Lane"}, session.rules().family};
    Recorder recorder{session, wording};
};

TEST_F(RecorderDoors, AForgottenReplacementIsInsertedWhereItHappened) {
    rally(Team::A);
    const EntryNumber after = last();
    rally(Team::A);
    const Outcome outcome = recorder.insert(after, LiberoReplacement{Team::A, no(21), no(6)});
    EXPECT_TRUE(outcome.saved);
    EXPECT_FALSE(outcome.words.isEmpty());
    EXPECT_EQ(score(), (Score{2, 0}));
    EXPECT_EQ(on_court(session.state().set.team.a)[index(Position::VI)], no(21));
    EXPECT_TRUE(std::holds_alternative<Insert>(session.written().back()));
    EXPECT_TRUE(recorder.undo().saved);
    EXPECT_EQ(on_court(session.state().set.team.a)[index(Position::VI)], no(6));
    EXPECT_EQ(score(), (Score{2, 0})) << "the rallies stay";
}

TEST_F(RecorderDoors, ARallyForTheWrongTeamIsAmended) {
    rally(Team::A);
    const EntryNumber wrong = last();
    rally(Team::A);
    ASSERT_TRUE(recorder.amend(wrong, RallyWon{Team::B}).saved);
    EXPECT_EQ(score(), (Score{1, 1}));
    EXPECT_EQ(recorder.next_undo()->words, wording.fact(RallyWon{Team::B}));
    ASSERT_TRUE(recorder.undo().saved);
    EXPECT_EQ(score(), (Score{2, 0}));
}

TEST_F(RecorderDoors, WhatACorrectionWouldChangeIsKnownBeforeItIsWritten) {
    rally(Team::A);
    const EntryNumber after = last();
    rally(Team::A);
    const std::size_t written = session.written().size();
    const Correction forgotten = Insert{after, LiberoReplacement{Team::A, no(21), no(3)}};
    const auto changes = recorder.changes_by(forgotten);
    ASSERT_FALSE(changes.empty());
    EXPECT_EQ(changes.front().kind, VerdictChange::Kind::appeared);
    EXPECT_EQ(on_court(recorder.state_after({&forgotten, 1}).set.team.a)[index(Position::III)],
              no(21));
    EXPECT_EQ(session.written().size(), written);
}

TEST_F(RecorderDoors, AnEntryStruckByNumberIsPassedOverByUndo) {
    rally(Team::A);
    recorder.perform({TimeOut{Team::B}});
    const EntryNumber time_out = last();
    rally(Team::B);
    ASSERT_TRUE(recorder.strike(time_out).saved);
    EXPECT_EQ(session.state().set.team.b.time_outs, 0);
    // The strike itself is the last act, then the rally, then the first rally.
    ASSERT_TRUE(recorder.undo().saved);
    EXPECT_EQ(session.state().set.team.b.time_outs, 1);
    ASSERT_TRUE(recorder.undo().saved);
    EXPECT_EQ(score(), (Score{1, 0}));
    ASSERT_TRUE(recorder.strike(time_out).saved);
    ASSERT_TRUE(recorder.undo().saved);
    ASSERT_TRUE(recorder.undo().saved) << "the time-out";
    ASSERT_TRUE(recorder.undo().saved);
    EXPECT_EQ(score(), (Score{0, 0}));
}

TEST_F(RecorderDoors, NothingButTheOpeningIsNothingToUndo) {
    MemorySession empty{"us-domestic-2014", harbour_cup_sheet("us-domestic-2014")};
    empty.record(MatchOpened{empty.rules().format});
    Recorder fresh{empty, wording};
    EXPECT_FALSE(fresh.next_undo());
    EXPECT_FALSE(fresh.undo().saved);
    EXPECT_FALSE(fresh.problem().isEmpty());
}

TEST_F(RecorderDoors, ALineUpCopiedMirroredExplainsAWrongServer) {
    MemorySession mirrored{"us-domestic-2014", harbour_cup_sheet("us-domestic-2014")};
    open_match(mirrored);
    mirrored.record(Toss{Team::A, Team::A});
    mirrored.record(SetStarted{1});
    const LiberoBox none{LiberoBox::Mark::none, Jersey::none()};
    // On the sheet of the team: 1 6 5 4 3 2.
    mirrored.record(
        LineUp{Team::A, {no(1), no(2), no(3), no(4), no(5), no(6)}, {none, none}, no(3)});
    mirrored.record(
        LineUp{Team::B, {no(31), no(32), no(33), no(34), no(35), no(36)}, {none, none}, no(33)});
    Recorder seat{mirrored, wording};
    seat.perform({Serve{Team::A, no(1)}, RallyWon{Team::B}});
    for (const int server : {6, 5, 4}) {
        seat.perform({Serve{}, RallyWon{Team::A}});
        seat.perform({Serve{Team::A, no(server)}, RallyWon{Team::B}});
    }
    const auto causes = seat.causes_of_wrong_server(Team::A, seat.last_entry());
    ASSERT_FALSE(causes.empty());
    EXPECT_EQ(causes.front().kind, Explanation::Kind::lineup_mirrored);
    EXPECT_TRUE(causes.front().record_wrong);
    EXPECT_EQ(causes.front().explained, causes.front().observed);
}

TEST_F(RecorderDoors, AFaultFoundLateComesWithThePointsMadeSince) {
    recorder.perform({LiberoReplacement{Team::A, no(21), no(3)}});
    const EntryNumber fault = last();
    rally(Team::A);
    rally(Team::A);
    const auto faults = recorder.late_faults(recorder.last_entry());
    ASSERT_FALSE(faults.empty());
    EXPECT_EQ(faults.front().first_entry, fault);
    EXPECT_EQ(faults.front().points.size(), 2U);
}

}  // namespace
}  // namespace courthand::client::test
