// Rows come, go, move and change under the eyes and fingers of a person, thousands of times, while
// acts are under way: no page may lose a row, or stumble over one that is just being laid out.
#include <QAbstractItemModel>
#include <algorithm>
#include <functional>
#include <random>

#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

using seats::RowList;

constexpr int changes_of_a_page = 2000;
/// Turns after which the window is drawn, and after which the record itself goes on.
constexpr int turns_to_a_picture = 100;
constexpr int turns_to_a_fact = 50;

/// A list of rows and what can be made of it: the rows it had at first, in any order and number,
/// with the contents of each other.
class Shuffled {
  public:
    explicit Shuffled(RowList& list) : list_{list} {
        const auto names = list.roleNames();
        for (auto role = names.cbegin(); role != names.cend(); ++role)
            fields_ << QString::fromUtf8(role.value());
        key_ = QString::fromUtf8(names.value(*std::min_element(names.keyBegin(), names.keyEnd())));
        for (int i = 0; i < list.count(); ++i) {
            QVariantMap row;
            for (const QString& field : fields_) row.insert(field, list.field(i, field));
            first_.push_back(std::move(row));
        }
        rows_ = first_;
    }

    [[nodiscard]] bool empty() const { return first_.empty(); }
    [[nodiscard]] int expected() const { return static_cast<int>(rows_.size()); }
    [[nodiscard]] int shown() const { return list_.count(); }

    /// One to three changes, then the list is told.
    void turn(std::mt19937& dice) {
        for (auto left = 1 + dice() % 3; left > 0; --left) change(dice);
        list_.show(rows_);
    }

  private:
    void change(std::mt19937& dice) {
        const std::size_t at = rows_.empty() ? 0 : dice() % rows_.size();
        switch (dice() % 4) {
            case 0:
                if (rows_.size() < 2 * first_.size() + 4)
                    rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(at), another(dice));
                break;
            case 1:
                if (!rows_.empty()) rows_.erase(rows_.begin() + static_cast<std::ptrdiff_t>(at));
                break;
            case 2:
                if (!rows_.empty()) std::swap(rows_[at], rows_[dice() % rows_.size()]);
                break;
            default:
                if (!rows_.empty()) {
                    const QVariant key = rows_[at].value(key_);
                    rows_[at] = any(dice);
                    rows_[at].insert(key_, key);
                }
        }
    }
    [[nodiscard]] const QVariantMap& any(std::mt19937& dice) const {
        return first_[dice() % first_.size()];
    }
    /// A row of a key that never was.
    [[nodiscard]] QVariantMap another(std::mt19937& dice) {
        QVariantMap row = any(dice);
        const int number = 100'000 + made_++;
        const bool counted = row.value(key_).typeId() == QMetaType::Int;
        row.insert(key_, counted ? QVariant(number) : QVariant(QString::number(number)));
        return row;
    }

    RowList& list_;
    QStringList fields_;
    QString key_;
    std::vector<QVariantMap> first_;
    std::vector<QVariantMap> rows_;
    int made_ = 0;
};

struct PageCase {
    Qt::Key key;
    const char* called;
    std::vector<RowList*> lists;
    /// What opens the sheet over the page, and an item of it.
    std::function<void()> open{};
    const char* sheet = nullptr;
};

class RowsUnderWay : public TournamentTest {
  protected:
    void begin() {
        auto facts = event_case("harbour-cup-24-teams", "result M5 paper 25-20 25-22");
        ASSERT_NO_FATAL_FAILURE(open(std::move(facts)));
        std::vector<venue::AuditListed> lines(40);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            lines[i].number = i + 1;
            lines[i].act = i % 2 == 0 ? "revoke" : "import-roster";
            lines[i].refused = i % 3 == 0;
        }
        desk->show_audit(lines);
        finish_c1();
        for (std::uint16_t number = 30; number < 38; ++number) {
            event::PersonListed official;
            official.person = number;
            event->say({{official, {}}});
        }
        event->say({{event::CrewFormed{"Blue", {30, 31}}, {}}});
        screen->key(Qt::Key_F5);
        Screen::settle();
    }
    std::vector<PageCase> pages() {
        seats::EventDesk& record = *seat->tournament();
        return {
            {Qt::Key_F1, "matches", {seat->matches()}},
            {Qt::Key_F2, "courts", {seat->courts(), seat->devices()}},
            {Qt::Key_F3, "teams", {record.entries()->rows(), seat->teams()}},
            {Qt::Key_F5, "log", {seat->audit()->rows()}},
            {Qt::Key_F6, "pools", {record.pools()->rows()}},
            {Qt::Key_F7,
             "bracket",
             {record.bracket()->boxes(), record.bracket()->lines(), record.bracket()->headings()}},
            {Qt::Key_F8, "results", {record.results()->rows()}},
            {Qt::Key_F9, "record", {record.record()->rows()}},
            {Qt::Key_F10, "places", {record.places()->rows()}},
            {Qt::Key_F11, "officials", {record.officials()->rows()}},
            {Qt::Key_F8,
             "who works a match",
             {record.results()->rows()},
             [this] {
                 record_again();
                 screen->touch(QStringLiteral("result-M6"));
                 screen->click(QStringLiteral("whoWorks"));
             },
             "giveDuty"},
            {Qt::Key_F11,
             "a crew",
             {record.officials()->rows()},
             [this] {
                 record_again();
                 screen->touch(QStringLiteral("official-crew|Blue"));
             },
             "formCrew"}};
    }
    /// The rows of the record, and nothing over them.
    void record_again() {
        seat->tournament()->preview()->close();
        seat->tournament()->results()->setOnlyOpen(true);
        event->say({{event::NoteWritten{"A1", ""}, {}}});
        for (int sheets = 0; sheets < 2; ++sheets) screen->key(Qt::Key_Escape);
        Screen::settle();
    }
    /// Officials come and go, crews and duties change: the sheets of both follow.
    void staff(int turn) {
        const auto of = [&](int base) { return static_cast<std::uint16_t>(base + turn % 8); };
        event::PersonListed more;
        more.person = of(40);
        event->say({{more, "Official Example"},
                    {event::CrewFormed{"Blue", {of(30), of(40)}}, {}},
                    {event::DutyGiven{"M6", {}, "Blue", of(30), of(40)}, {}},
                    {event::ConflictDeclared{of(30), "Harbour Lights"}, {}}});
        if (turn % 3 == 0) event->say({{event::TakenBack{state().last() - 3}, {}}});
    }
    /// Something is asked, being done, or left, turn by turn; the record goes on beside it.
    void act(int turn) {
        seats::EventDesk& record = *seat->tournament();
        switch (turn / turns_to_a_fact % 4) {
            case 0:
                record.results()->look(QStringLiteral("A1"));
                record.results()->reopen();
                break;
            case 1:
                record.preview()->act();
                break;
            case 2:
                event->say({{event::NoteWritten{"A1", ""}, "the ball was checked"}});
                break;
            default:
                record.preview()->close();
                event->say({{event::ResultReopened{"B1"}, {}}});
                confirm("B1");
                confirm("A1");
        }
    }
    void confirm(const char* match) {
        event::ResultConfirmed result;
        result.match = match;
        result.from = event::ResultFrom::paper;
        result.sets = {{21, 12}, {21, 14}};
        event->say({{result, {}}});
    }
};

TEST_F(RowsUnderWay, ComeGoMoveAndChangeOnEveryPageWhileActsAreDone) {
    ASSERT_NO_FATAL_FAILURE(begin());
    std::mt19937 dice{20261128};
    for (const PageCase& page : pages()) {
        screen->key(page.key);
        for (int turn = 0; turn < changes_of_a_page; turn += turns_to_a_fact) {
            act(turn);
            if (page.open) {
                // An act that is done closes the sheet over which it was asked.
                if (screen->peek(QString::fromLatin1(page.sheet)) == nullptr) page.open();
                ASSERT_NE(screen->find(QString::fromLatin1(page.sheet)), nullptr) << page.called;
                staff(turn / turns_to_a_fact);
            }
            QCoreApplication::processEvents();
            // The record has told its own rows: from here on they are those of the test.
            std::vector<Shuffled> lists;
            for (RowList* list : page.lists) lists.emplace_back(*list);
            lists.emplace_back(*seat->work());
            for (int i = 0; i < turns_to_a_fact; ++i) {
                for (Shuffled& list : lists) {
                    if (list.empty()) continue;
                    list.turn(dice);
                    ASSERT_EQ(list.shown(), list.expected()) << page.called;
                }
                QCoreApplication::processEvents();
                QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
            }
            if (turn % turns_to_a_picture == 0) screen->window().grabWindow();
        }
        seat->tournament()->preview()->close();
        Screen::settle();
        if (page.open) record_again();
    }
    // What was true all the time is on the screen again.
    event->say({{event::NoteWritten{"A1", ""}, {}}});
    EXPECT_TRUE(Screen::wait([&] { return seat->tournament()->pools()->rows()->count() == 30; }));
}

}  // namespace
}  // namespace courthand::tests
