// Pictures of the seat in the middle of a set, for people to look at.
#include "table_fixture.h"

namespace courthand::client::test {
namespace {

class Pictures : public TableTest {
  protected:
    void rally(Team winner) {
        session->record(Serve{});
        session->record(RallyWon{winner});
    }
    void libero(Team team, int in, int out) {
        session->record(LiberoReplacement{team, no(in), no(out)});
    }
    /// 12 : 10 in the first set, both teams with a libero on court, a substitution, a time-out.
    void middleOfTheSet() {
        ready_to_serve(*session);
        libero(Team::A, 21, 6);
        libero(Team::B, 41, 35);
        session->sync.link = SyncStatus::Link::online;
        session->sync.waiting = 2;
        const std::string winners = "AABBAABABABBAABBABABAA";
        for (const char winner : winners) {
            const Team team = winner == 'A' ? Team::A : Team::B;
            rally(team);
            bring_back();
        }
        session->record(TimeOut{Team::B});
        session->record(Substitution{Team::A, 1, {Pair{no(11), no(2)}}});
        libero(Team::A, 21, 1);
        libero(Team::B, 41, 36);
    }
    /// Does what the next step asks of the liberos.
    void bring_back() {
        for (int guard = 0; guard < 4; ++guard) {
            const Prompt prompt = next_step(session->rules(), session->state());
            if (prompt.kind != Prompt::Kind::libero_must_leave) break;
            libero(prompt.team, prompt.players[0].number(), prompt.players[1].number());
        }
    }
};

TEST_F(Pictures, InTheMiddleOfASet) {
    middleOfTheSet();
    show();
    hand->picture("table");
    setTheme("dark", true);
    hand->picture("table-dark");
    setTheme("dark", false);
    EXPECT_EQ(score(), (Score{12, 10}));
    EXPECT_TRUE(session->standing().empty());
}

TEST_F(Pictures, SmallerAndLargerGlass) {
    middleOfTheSet();
    show({1024, 600}, 118.0 / 25.4);
    hand->picture("table-1024x600");
    ASSERT_TRUE(hand->touch("more"));
    hand->picture("table-more-1024x600");
    TearDown();
    show({1920, 1080}, 218.0 / 25.4);
    hand->picture("table-1920x1080");
    EXPECT_TRUE(hand->shows("wonLeft"));
}

}  // namespace
}  // namespace courthand::client::test
