// The head official's window on a board and a record in memory.
#pragma once

#include <gtest/gtest.h>

#include <QQuickItem>
#include <chrono>
#include <memory>

#include "event_case.h"
#include "harbour_cup.h"
#include "head_seat.h"
#include "screen.h"
#include "venue/memory_board.h"
#include "venue/memory_event.h"

namespace courthand::tests {

using namespace std::chrono_literals;
using seats::AlertList;
using seats::CourtList;
using seats::HeadSeat;
using venue::MemoryBoard;

class HeadSeatTest : public ::testing::Test {
  protected:
    void open(venue::Board board, int width = 1280, int height = 800) {
        source = std::make_unique<MemoryBoard>(std::move(board), "Chief");
        seat = std::make_unique<HeadSeat>(*source, event, QStringLiteral("Harbour Cup"),
                                          [this] { return now; });
        screen = std::make_unique<Screen>(
            QStringLiteral("qrc:/qt/qml/Courthand/Head/HeadWindow.qml"),
            QVariantMap{{QStringLiteral("seat"), QVariant::fromValue(seat.get())}}, width, height);
        ASSERT_TRUE(screen->ready());
    }
    void TearDown() override {
        screen.reset();
        seat.reset();
    }
    [[nodiscard]] QStringList order() const {
        QStringList ids;
        for (int i = 0; i < seat->alerts()->rowCount(); ++i) ids << seat->alerts()->idAt(i);
        return ids;
    }
    void pass(std::chrono::milliseconds time) {
        now += time;
        seat->tick();
        Screen::settle();
    }
    [[nodiscard]] QString told(int row, CourtList::Role role) const {
        return seat->courts()->data(seat->courts()->index(row), role).toString();
    }

    std::chrono::milliseconds now{1'000'000};
    std::unique_ptr<MemoryBoard> source;
    venue::MemoryEvent event;
    std::unique_ptr<HeadSeat> seat;
    std::unique_ptr<Screen> screen;
};

}  // namespace courthand::tests
