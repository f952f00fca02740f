// The desk's window on a tournament in memory.
#pragma once

#include <gtest/gtest.h>

#include <QMetaObject>
#include <QVariantMap>
#include <memory>
#include <string>
#include <vector>

#include "desk_seat.h"
#include "event_case.h"
#include "harbour_cup.h"
#include "held_event.h"
#include "screen.h"
#include "venue/memory_board.h"
#include "venue/memory_desk.h"
#include "venue/memory_event.h"
#include "venue/memory_exporter.h"

namespace courthand::tests {

class TournamentTest : public ::testing::Test {
  protected:
    void open(std::vector<event::Said> facts, int width = 1366, int height = 768) {
        close();
        event = std::make_unique<venue::MemoryEvent>(std::move(facts));
        line = std::make_unique<HeldEvent>(*event);
        desk = std::make_unique<venue::MemoryDesk>(harbour_cup_book());
        board = std::make_unique<venue::MemoryBoard>(harbour_cup_board());
        exporter = std::make_unique<venue::MemoryExporter>();
        seat = std::make_unique<seats::DeskSeat>(
            *desk, *board, *line, *exporter,
            seats::DeskNames{QStringLiteral("Harbour Cup"), "desk 1"});
        screen = std::make_unique<Screen>(
            QStringLiteral("qrc:/qt/qml/Courthand/Desk/DeskWindow.qml"),
            QVariantMap{{QStringLiteral("seat"), QVariant::fromValue(seat.get())}}, width, height);
        ASSERT_TRUE(screen->ready());
    }
    /// A pool whose teams the chain leaves level, on its page, with the decision begun.
    void open_a_decision() {
        ASSERT_NO_FATAL_FAILURE(open(event_case(
            "decision-by-lot",
            "decision U16 pool A by lot teams \"Mill Lane\" \"Saltmarsh\" \"Harbour Lights\"")));
        screen->key(Qt::Key_F6);
        screen->key(Qt::Key_D);
    }
    void close() {
        screen.reset();
        seat.reset();
    }
    void TearDown() override { close(); }

    /// The sheet of one match is opened, whatever lies over it.
    void open_match(const char* match) const {
        const QString name = QString::fromLatin1(match);
        for (QObject* const each : screen->window().findChildren<QObject*>()) {
            const QMetaObject& type = *each->metaObject();
            if (type.indexOfProperty("loser") < 0 || type.indexOfProperty("how") < 0) continue;
            const bool typed = type.indexOfMethod("ask(QString)") >= 0;
            EXPECT_TRUE(
                typed ? QMetaObject::invokeMethod(each, "ask", Q_ARG(QString, name))
                      : QMetaObject::invokeMethod(each, "ask", Q_ARG(QVariant, QVariant(name))));
            return;
        }
        ADD_FAILURE() << "no sheet of a match";
    }

    /// What the preview shows has been there long enough to be read.
    void read() {
        EXPECT_TRUE(Screen::wait([&] { return seat->tournament()->preview()->mayAct(); }));
    }
    /// "Record it" on the sheet of the preview.
    void record() {
        read();
        screen->click(QStringLiteral("actNow"));
        EXPECT_TRUE(
            Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    }
    [[nodiscard]] const event::TournamentState& state() const {
        book = event->book();
        return *book.state;
    }
    [[nodiscard]] const event::Fact& last_fact() const { return state().facts.back(); }

    /// A table has finished C1; the desk named its teams the other way round.
    void finish_c1() {
        const auto ref = state().find_match("C1");
        ASSERT_TRUE(ref);
        const std::string first = state().teams[state().side(*ref, 0).team].name;
        const std::string second = state().teams[state().side(*ref, 1).team].name;
        event::RecordOpened opened;
        opened.match = "C1";
        opened.record.bytes = {0x01, 0x92, 0xf0, 0xa1, 0, 0, 0x70, 0, 0x80, 0, 0, 0, 0, 0, 0, 0xa1};
        event->say({{opened, {}}});
        auto news = desk->book();
        venue::MatchPlanned planned;
        planned.id = c1_record;
        planned.number = 41;
        planned.first = second;
        planned.second = first;
        planned.status = venue::MatchStatus::finished;
        news.matches.push_back(planned);
        venue::ResultListed result;
        result.match_id = c1_record;
        result.sets = {2, 1};
        result.set_scores = {{21, 18}, {19, 21}, {15, 11}};
        result.decided = true;
        result.head_hash = std::string(32, '\x5a');
        news.results.push_back(result);
        desk->show(news);
    }
    /// The table of C1 has other sets now.
    void table_writes(std::vector<Score> sets, char head, bool decided = true) {
        auto news = desk->book();
        for (auto& result : news.results) {
            if (result.match_id != c1_record) continue;
            result.set_scores = std::move(sets);
            result.head_hash = std::string(32, head);
            result.decided = decided;
        }
        desk->show(news);
    }

    /// Who has signed the record of C1, in the order of the desk.
    void table_is_signed(SignerSet by, const char* left_to_desk = "") {
        auto news = desk->book();
        for (auto& result : news.results) {
            if (result.match_id != c1_record) continue;
            result.signed_by = by;
            result.left_to_desk = left_to_desk;
        }
        desk->show(news);
    }

    static constexpr const char* c1_record = "0192f0a1-0000-7000-8000-0000000000a1";

    std::unique_ptr<venue::MemoryEvent> event;
    std::unique_ptr<HeldEvent> line;  ///< between the record and the seat
    std::unique_ptr<venue::MemoryDesk> desk;
    std::unique_ptr<venue::MemoryBoard> board;
    std::unique_ptr<venue::MemoryExporter> exporter;
    std::unique_ptr<seats::DeskSeat> seat;
    std::unique_ptr<Screen> screen;
    mutable venue::EventBook book;
};

}  // namespace courthand::tests
