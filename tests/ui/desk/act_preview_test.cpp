// The sheet before an act: read before it is done, not left while it is done, closed by its own
// act.
#include <QQuickItem>
#include <QSignalSpy>
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class ActPreviewTest : public TournamentTest {
  protected:
    void SetUp() override {
        ASSERT_NO_FATAL_FAILURE(
            open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
        preview = seat->tournament()->preview();
        before = state().last();
    }
    void ask(const char* match) const {
        seat->tournament()->results()->look(QString::fromLatin1(match));
        seat->tournament()->results()->enter(QStringLiteral("21-12 21-14"));
    }
    [[nodiscard]] event::FactNumber said() const { return state().last() - before; }

    seats::ActPreview* preview = nullptr;
    event::FactNumber before = 0;
};

TEST_F(ActPreviewTest, WhatHasJustComeIsNotActedOn) {
    bool shown = false;
    bool acted = false;
    const auto heard = QObject::connect(preview, &seats::ActPreview::changed, preview, [&] {
        if (shown || preview->busy()) return;
        shown = true;
        preview->act();
        acted = preview->acting();
    });
    ask("C2");
    EXPECT_TRUE(Screen::wait([&] { return shown; }));
    QObject::disconnect(heard);
    EXPECT_FALSE(acted);
    read();
    preview->act();
    EXPECT_TRUE(Screen::wait([&] { return !preview->open(); }));
    EXPECT_EQ(said(), 1u);
}

TEST_F(ActPreviewTest, WhileAnActIsDoneItIsNotLeftAndNothingElseIsAsked) {
    ask("C2");
    read();
    line->hold();
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(preview->acting());
    screen->key(Qt::Key_Escape);
    Screen::settle();
    EXPECT_NE(screen->peek(QStringLiteral("actNow")), nullptr);
    ask("C3");
    EXPECT_TRUE(screen->text_of(QStringLiteral("actProblem"))
                    .contains(QStringLiteral("Result of C2 from paper")));
    line->release();
    EXPECT_TRUE(Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    EXPECT_EQ(said(), 1u);
}

TEST_F(ActPreviewTest, AnActClosesNoSheetButItsOwn) {
    ask("C2");
    read();
    line->hold();
    preview->act();
    open_match("C3");
    EXPECT_NE(screen->find(QStringLiteral("matchTeams")), nullptr);
    line->release();
    EXPECT_TRUE(Screen::wait([&] { return !preview->open(); }));
    Screen::settle();
    EXPECT_NE(screen->peek(QStringLiteral("matchTeams")), nullptr);
    ask("C3");
    record();
    EXPECT_TRUE(
        Screen::wait([&] { return screen->peek(QStringLiteral("matchTeams")) == nullptr; }));
}

TEST_F(ActPreviewTest, AnActWhoseAnswerWasLostIsDoneWhenTheRecordHasIt) {
    ask("C2");
    read();
    const QSignalSpy done(preview, &seats::ActPreview::done);
    line->lose_next();
    preview->act();
    EXPECT_EQ(screen->text_of(QStringLiteral("actProblem")),
              QStringLiteral("The server did not answer."));
    EXPECT_EQ(done.count(), 0);
    event->say({{event::NoteWritten{"A1", ""}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return done.count() == 1; }));
    EXPECT_FALSE(preview->open());
    EXPECT_EQ(preview->between(), QStringList());
    EXPECT_EQ(said(), 2u);
}

}  // namespace
}  // namespace courthand::tests
