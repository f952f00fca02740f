// The people of a team: its list frozen and changed for a reason, and names erased.
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class TeamPeopleTest : public TournamentTest {
  protected:
    void look_at_mill_lane() {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
        event::PersonListed coach;
        coach.person = 7;
        coach.role = event::Role::coach;
        coach.team = "Mill Lane";
        event::PersonListed captain;
        captain.person = 8;
        captain.role = event::Role::player;
        captain.team = "Mill Lane";
        captain.jersey = Jersey{33};
        event::ConflictDeclared conflict;
        conflict.person = 7;
        conflict.team = "Quayside";
        event->say({{coach, "Coach Example"},
                    {captain, "Captain Example"},
                    {conflict, "a sister of Coach Example plays there"}});
        screen->key(Qt::Key_F3);
        look();
    }
    void look() {
        screen->touch(QStringLiteral("entry-Mill Lane"));
        ASSERT_NE(screen->find(QStringLiteral("teamNumbers")), nullptr);
    }
    [[nodiscard]] QString word(const char* name) {
        auto* const item = screen->peek(QString::fromLatin1(name));
        return item == nullptr ? QString() : item->property("word").toString();
    }
    /// The desk's book with one player of Mill Lane less and one more.
    void change_list() {
        auto news = desk->book();
        for (auto& team : news.teams)
            if (team.name == "Mill Lane") {
                team.players.erase(team.players.begin());
                team.players.push_back({99, "", false, false});
            }
        desk->show(news);
        Screen::settle();
    }
    [[nodiscard]] const event::RosterFrozen* frozen() const {
        return std::get_if<event::RosterFrozen>(&last_fact());
    }
};

TEST_F(TeamPeopleTest, AListIsFrozenAndChangedAfterwardsForAReasonOnly) {
    ASSERT_NO_FATAL_FAILURE(look_at_mill_lane());
    screen->picture(QStringLiteral("team-sheet-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->click(QStringLiteral("freezeList"));
    EXPECT_NE(screen->find(QStringLiteral("actNow")), nullptr);
    EXPECT_EQ(screen->peek(QStringLiteral("actWhy")), nullptr) << "nothing is changed by it";
    record();
    ASSERT_NE(frozen(), nullptr);
    const auto before = frozen()->numbers;
    EXPECT_EQ(before.size(), 11u);
    EXPECT_FALSE(book.words->contains(state().last()));

    ASSERT_NO_FATAL_FAILURE(look());
    EXPECT_TRUE(word("teamFrozen").startsWith(QStringLiteral("Frozen: 31 ")));
    EXPECT_EQ(screen->peek(QStringLiteral("freezeList")), nullptr) << "it is frozen as it is";
    change_list();
    EXPECT_EQ(word("teamDifference"),
              QStringLiteral("The list has changed since: in: 99 · out: 31"));
    screen->click(QStringLiteral("freezeList"));
    EXPECT_TRUE(screen->find(QStringLiteral("actWhy"))
                    ->property("problem")
                    .toString()
                    .contains(QStringLiteral("say why it changes")));
    screen->key(Qt::Key_Return);
    EXPECT_NE(screen->peek(QStringLiteral("actNow")), nullptr) << "not without a reason";
    screen->type(QStringLiteral("actWhy"), QStringLiteral("number 31 went home"));
    EXPECT_EQ(screen->text_of(QStringLiteral("actNote0")),
              QStringLiteral("The list has changed since: in: 99 · out: 31"));
    screen->picture(QStringLiteral("team-list-preview-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    record();
    ASSERT_NE(frozen(), nullptr);
    EXPECT_EQ(frozen()->numbers.back(), 99);
    EXPECT_NE(frozen()->numbers, before);
    EXPECT_EQ(book.words->at(state().last()), "number 31 went home");

    ASSERT_NO_FATAL_FAILURE(look());
    EXPECT_TRUE(
        word("teamFrozen").endsWith(QStringLiteral(". Changed because: number 31 went home")));
}

TEST_F(TeamPeopleTest, ANameIsErasedOnceAskedWithEverythingSaidAboutThePerson) {
    ASSERT_NO_FATAL_FAILURE(look_at_mill_lane());
    const auto last = state().last();
    const auto facts = state().facts;
    EXPECT_EQ(book.words->at(last - 2), "Coach Example");
    screen->click(QStringLiteral("erase-7"));
    EXPECT_EQ(screen->text_of(QStringLiteral("eraseName")), QStringLiteral("Coach Example"));
    screen->picture(QStringLiteral("team-erase-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(screen->nameless(), QStringList());
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("eraseNow")) == nullptr; }));
    EXPECT_TRUE(event->book().words->contains(last - 2)) << "Escape leaves the name";

    screen->click(QStringLiteral("erase-7"));
    event->fail_next("The server cannot be reached; nothing was erased. Try again.");
    screen->click(QStringLiteral("eraseNow"));
    EXPECT_TRUE(Screen::wait([&] {
        return word("eraseProblem").startsWith(QStringLiteral("The server cannot be reached"));
    }));
    EXPECT_TRUE(event->book().words->contains(last - 2));
    screen->click(QStringLiteral("eraseNow"));
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("eraseNow")) == nullptr; }));
    EXPECT_EQ(state().facts, facts) << "the record stays as it is";
    EXPECT_FALSE(book.words->contains(last - 2));
    EXPECT_FALSE(book.words->contains(last)) << "what was noted about the person";
    EXPECT_EQ(book.words->at(last - 1), "Captain Example") << "somebody else";
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("erase-7")) == nullptr; }));
    EXPECT_NE(screen->find(QStringLiteral("erase-8")), nullptr);
}

TEST_F(TeamPeopleTest, WithoutAListThereIsNothingToFreeze) {
    ASSERT_NO_FATAL_FAILURE(look_at_mill_lane());
    auto news = desk->book();
    for (auto& team : news.teams) team.players.clear();
    desk->show(news);
    EXPECT_TRUE(Screen::wait([&] {
        return screen->text_of(QStringLiteral("teamNumbers"))
            .startsWith(QStringLiteral("No team list"));
    }));
    EXPECT_EQ(screen->peek(QStringLiteral("freezeList")), nullptr);
}

}  // namespace
}  // namespace courthand::tests
