// The desk's window on a tournament in memory.
#pragma once

#include <gtest/gtest.h>

#include <QVariantMap>
#include <memory>
#include <string>
#include <vector>

#include "desk_seat.h"
#include "event_case.h"
#include "harbour_cup.h"
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
        desk = std::make_unique<venue::MemoryDesk>(harbour_cup_book());
        board = std::make_unique<venue::MemoryBoard>(harbour_cup_board());
        exporter = std::make_unique<venue::MemoryExporter>();
        seat = std::make_unique<seats::DeskSeat>(
            *desk, *board, *event, *exporter,
            seats::DeskNames{QStringLiteral("Harbour Cup"), "desk 1"});
        screen = std::make_unique<Screen>(
            QStringLiteral("qrc:/qt/qml/Courthand/Desk/DeskWindow.qml"),
            QVariantMap{{QStringLiteral("seat"), QVariant::fromValue(seat.get())}}, width, height);
        ASSERT_TRUE(screen->ready());
    }
    void close() {
        screen.reset();
        seat.reset();
    }
    void TearDown() override { close(); }

    /// "Record it" on the sheet of the preview.
    void record() {
        screen->click(QStringLiteral("actNow"));
        EXPECT_TRUE(
            Screen::wait([&] { return screen->peek(QStringLiteral("actNow")) == nullptr; }));
    }
    [[nodiscard]] const event::TournamentState& state() const {
        book = event->book();
        return *book.state;
    }
    [[nodiscard]] const event::Fact& last_fact() const { return state().facts.back(); }

    std::unique_ptr<venue::MemoryEvent> event;
    std::unique_ptr<venue::MemoryDesk> desk;
    std::unique_ptr<venue::MemoryBoard> board;
    std::unique_ptr<venue::MemoryExporter> exporter;
    std::unique_ptr<seats::DeskSeat> seat;
    std::unique_ptr<Screen> screen;
    mutable venue::EventBook book;
};

}  // namespace courthand::tests
