// Enter and Escape on every sheet of the desk do what the list of keys says.
#include <QSet>
#include <functional>
#include <variant>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

class DeskSheets : public TournamentTest {
  protected:
    static QString kind_of(const QObject& popup) {
        return QString::fromLatin1(popup.metaObject()->className())
            .section(QStringLiteral("_QML"), 0, 0);
    }
    [[nodiscard]] std::vector<const QObject*> sheets() const {
        std::vector<const QObject*> all;
        for (const QObject* each : screen->window().findChildren<QObject*>())
            if (each->inherits("QQuickPopup")) all.push_back(each);
        return all;
    }
    /// Is a sheet of that kind on the screen?
    [[nodiscard]] bool shown(const QString& kind) const {
        for (const QObject* each : sheets())
            if (kind_of(*each) == kind && each->property("visible").toBool()) return true;
        return false;
    }
    [[nodiscard]] bool asks() const { return seat->tournament()->preview()->open(); }
    void press(const char* name) { screen->click(QString::fromLatin1(name)); }
    void write(const char* field, const char* words) {
        screen->type(QString::fromLatin1(field), QString::fromLatin1(words));
    }

    /// Halfway through the pools, with one finished table, a person, and two records of a match.
    void begin() {
        auto facts = event_case("harbour-cup-24-teams", "result M5 paper 25-20 25-22");
        event::PersonListed coach;
        coach.person = 7;
        coach.role = event::Role::coach;
        coach.team = "Mill Lane";
        facts.push_back({coach, "Coach Example"});
        event::PersonListed referee;
        referee.person = 8;
        facts.push_back({referee, {}});
        ASSERT_NO_FATAL_FAILURE(open(std::move(facts)));
        board->show(harbour_cup_forked());
        board->show_fork(harbour_cup_fork());
        Screen::settle();
    }
};

/// How a sheet comes on the screen, what is filled in, and what Enter then brings about.
struct SheetCase {
    const char* kind;
    std::function<void()> open;
    std::function<void()> fill;
    std::function<bool()> done;
    /// Of what cannot be taken back: the button that wants the focus first.
    const char* grave = nullptr;
    Qt::KeyboardModifiers with = Qt::NoModifier;
};

class EverySheet : public DeskSheets {
  protected:
    [[nodiscard]] std::vector<SheetCase> cases() {
        std::vector<SheetCase> all = of_the_venue();
        for (auto& one : of_the_record()) all.push_back(std::move(one));
        for (auto& one : of_the_people()) all.push_back(std::move(one));
        return all;
    }
    std::vector<SheetCase> of_the_venue() {
        const auto nothing = [] {};
        return {
            {"NewMatchSheet", [this] { press("newMatch"); },
             [this] {
                 press("first-t1");
                 press("second-t4");
             },
             [this] {
                 return desk->book().matches.size() == harbour_cup_book().matches.size() + 1;
             }},
            {"CourtSheet", [this] { press("work-court-m17"); },
             [this] { write("assignOther", "7"); },
             [this] { return screen->peek(QStringLiteral("work-court-m17")) == nullptr; }},
            {"CodeSheet", [this] { press("work-code-5"); }, nothing,
             [this] { return !seat->code()->symbols().isEmpty(); }},
            {"RevokeSheet",
             [this] {
                 screen->key(Qt::Key_F2);
                 press("revoke-d1");
             },
             nothing, [this] { return desk->book().devices[0].revoked; }, "revokeNow"},
            {"TwoRecordsSheet", [this] { press("work-fork-a7"); }, nothing,
             [this] { return board->settled().size() == 1; }, "forkRecordStands"},
            {"ExportSheet", [this] { screen->key(Qt::Key_E, Qt::ControlModifier); }, nothing,
             [this] { return exporter->asked().size() == 1; }},
            {"DeskKeys", [this] { screen->key(Qt::Key_Question); }, nothing,
             [this] { return !shown(QStringLiteral("DeskKeys")); }},
        };
    }
    std::function<void()> page(Qt::Key key, const char* button) {
        return [this, key, button] {
            screen->key(key);
            press(button);
        };
    }
    std::vector<SheetCase> of_the_record() {
        const auto nothing = [] {};
        const auto asked = [this] { return asks(); };
        return {
            {"MatchSheet",
             [this] {
                 seat->tournament()->results()->setOnlyOpen(true);
                 screen->key(Qt::Key_F8);
                 press("result-M5");
             },
             [this] { write("typedSets", "25-20 25-22"); }, asked},
            {"TeamSheet", page(Qt::Key_F3, "entry-Mill Lane"), [this] { press("toPool-C"); },
             asked},
            {"EnterSheet", page(Qt::Key_F3, "enterTeams"),
             [this] { write("teamLines", "Gull Rock 9"); }, asked, nullptr, Qt::ControlModifier},
            {"DivisionSheet", page(Qt::Key_F3, "openDivision"),
             [this] { write("divisionCode", "U18"); }, asked},
            {"SeedsSheet", page(Qt::Key_F3, "giveSeeds"), nothing, asked, nullptr,
             Qt::ControlModifier},
            {"EraseNameSheet",
             [this] {
                 screen->key(Qt::Key_F3);
                 press("entry-Mill Lane");
                 press("erase-7");
             },
             nothing, [this] { return book_without_name(); }, "eraseNow"},
            {"DrawSheet", page(Qt::Key_F6, "drawPools"), [this] { write("poolCount", "6"); },
             asked},
            {"BracketSheet", page(Qt::Key_F7, "makeBracket"),
             [this] { write("bracketPrefix", "Z"); }, asked},
            {"ReasonSheet", page(Qt::Key_F6, "pool-U16|A|Boathouse"), nothing,
             [this] { return !shown(QStringLiteral("ReasonSheet")); }},
            {"ActSheet", [this] { seat->tournament()->publishPlan(); }, [this] { read(); },
             [this] { return std::holds_alternative<event::PlanPublished>(last_fact()); }},
        };
    }
    std::vector<SheetCase> of_the_people() {
        const auto asked = [this] { return asks(); };
        return {
            {"DutySheet",
             [this] {
                 screen->key(Qt::Key_F8);
                 screen->key(Qt::Key_W);
             },
             [this] {
                 write("workersFind", "quay");
                 press("workers-Quayside");
             },
             asked},
            {"OfficialSheet", page(Qt::Key_F11, "official-person|8"),
             [this] {
                 write("conflictTeamFind", "quay");
                 press("conflictTeam-Quayside");
             },
             asked},
            {"ListOfficialSheet", page(Qt::Key_F11, "listOfficial"), [] {}, asked},
            {"CrewSheet", page(Qt::Key_F11, "newCrew"),
             [this] {
                 press("member-8");
                 write("crewName", "Blue");
             },
             asked},
            {"PlaceSheet",
             [this] {
                 screen->key(Qt::Key_F10);
                 screen->key(Qt::Key_Return);
             },
             [] {}, [this] { return !shown(QStringLiteral("PlaceSheet")); }},
        };
    }
    [[nodiscard]] bool book_without_name() const {
        book = event->book();
        return std::none_of(book.words->begin(), book.words->end(),
                            [](const auto& beside) { return beside.second == "Coach Example"; });
    }
};

TEST_F(EverySheet, GoesOnByEnterAsTheListOfKeysSays) {
    for (const SheetCase& each : cases()) {
        ASSERT_NO_FATAL_FAILURE(begin());
        each.open();
        ASSERT_TRUE(shown(QString::fromLatin1(each.kind))) << each.kind;
        each.fill();
        EXPECT_FALSE(each.done()) << each.kind;
        screen->key(Qt::Key_Return, each.with);
        if (each.grave != nullptr) {
            Screen::settle();
            EXPECT_FALSE(each.done()) << each.kind << ": one key too few for what stays";
            screen->find(QString::fromLatin1(each.grave))->forceActiveFocus(Qt::TabFocusReason);
            screen->key(Qt::Key_Enter);
        }
        EXPECT_TRUE(Screen::wait(each.done)) << each.kind;
    }
}

TEST_F(EverySheet, IsLeftByEscapeWithNothingRecorded) {
    for (const SheetCase& each : cases()) {
        ASSERT_NO_FATAL_FAILURE(begin());
        const event::FactNumber before = state().last();
        each.open();
        ASSERT_TRUE(shown(QString::fromLatin1(each.kind))) << each.kind;
        each.fill();
        screen->key(Qt::Key_Escape);
        EXPECT_TRUE(Screen::wait([&] { return !shown(QString::fromLatin1(each.kind)); }))
            << each.kind;
        EXPECT_EQ(state().last(), before) << each.kind;
        EXPECT_EQ(desk->book(), harbour_cup_book()) << each.kind;
        EXPECT_TRUE(exporter->asked().empty()) << each.kind;
    }
}

/// Among the cases is every sheet that the window has, so that a new one is not forgotten.
TEST_F(EverySheet, IsAmongTheCases) {
    ASSERT_NO_FATAL_FAILURE(begin());
    QSet<QString> tested{QStringLiteral("DecisionSheet")};  // below
    for (const SheetCase& each : cases()) tested.insert(QString::fromLatin1(each.kind));
    QSet<QString> there;
    for (const QObject* each : sheets()) there.insert(kind_of(*each));
    EXPECT_GE(there.size(), 23);
    EXPECT_EQ((there - tested).values(), QStringList());
    EXPECT_EQ((tested - there).values(), QStringList());
}

TEST_F(DeskSheets, ADecisionGoesOnByEnterAndIsLeftByEscape) {
    ASSERT_NO_FATAL_FAILURE(open_a_decision());
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_1);
    screen->key(Qt::Key_Escape);
    EXPECT_TRUE(Screen::wait([&] { return !shown(QStringLiteral("DecisionSheet")); }));
    EXPECT_FALSE(asks());
    screen->key(Qt::Key_D);
    screen->key(Qt::Key_2);
    screen->key(Qt::Key_1);
    screen->key(Qt::Key_Enter);
    EXPECT_TRUE(Screen::wait([&] { return asks(); }));
}

/// A match has several things to go on with: the one that is begun.
TEST_F(DeskSheets, EnterInAFieldOfAMatchDoesWhatTheFieldIsFor) {
    ASSERT_NO_FATAL_FAILURE(
        open(event_case("harbour-cup-24-teams", "result C1 paper 21-12 21-14")));
    finish_c1();
    const auto title = [&] { return seat->tournament()->preview()->title(); };
    const auto look = [&](const char* match) {
        seat->tournament()->preview()->close();
        screen->key(Qt::Key_Escape);
        screen->key(Qt::Key_Escape);
        screen->key(Qt::Key_F8);
        press(match);
    };
    look("result-C1");
    write("placeCourt", "4");
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return title() == QStringLiteral("Court and time of C1"); }));
    look("result-C1");
    press("award-double-default");
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return title() == QStringLiteral("C1: double default"); }));
    look("result-C1");
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(
        Screen::wait([&] { return title() == QStringLiteral("Confirm the result of C1"); }));
    look("result-A1");
    screen->key(Qt::Key_Return);
    EXPECT_TRUE(Screen::wait([&] { return title() == QStringLiteral("Reopen the result of A1"); }));
}

/// While there is no division, a sheet about one would ask about nothing.
TEST_F(DeskSheets, WithoutADivisionTheOneThatOpensItComesInstead) {
    ASSERT_NO_FATAL_FAILURE(open({}));
    for (const Qt::Key page : {Qt::Key_F3, Qt::Key_F6, Qt::Key_F7}) {
        screen->key(page);
        screen->key(Qt::Key_N, Qt::ControlModifier);
        EXPECT_TRUE(shown(QStringLiteral("DivisionSheet")));
        screen->key(Qt::Key_Escape);
    }
    seat->tournament()->divisionPage()->drawPools({{QStringLiteral("method"), "serpentine"}});
    EXPECT_TRUE(seat->tournament()->divisionPage()->problem().contains("No division is open"));
}

TEST_F(DeskSheets, ADivisionIsCalledByItsNameOrElseByItsCode) {
    const char* const opened =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 %format best-of 3\n";
    struct Called {
        const char* with;
        const char* name;
    };
    for (const Called& each :
         {Called{"", "U16"}, Called{"called \"Under sixteen\" ", "Under sixteen"}}) {
        ASSERT_NO_FATAL_FAILURE(open(event_of(QString::fromLatin1(opened)
                                                  .replace('%', QString::fromLatin1(each.with))
                                                  .toStdString())));
        EXPECT_TRUE(Screen::wait(
            [&] { return seat->tournament()->divisionName() == QString::fromLatin1(each.name); }));
    }
}

}  // namespace
}  // namespace courthand::tests
