// A table seat on the screen, over a match in memory.
#pragma once

#include <gtest/gtest.h>

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QSize>
#include <QStringList>
#include <chrono>
#include <memory>
#include <string>

#include "memory_session.h"
#include "screen_hand.h"
#include "table_seat.h"
#include "tests/testkit/hand_clock.h"

namespace courthand::client::test {

/// A 10-inch tablet of 1280 x 800 has 149 pixels to the inch.
inline constexpr double tablet_pixels_per_mm = 149.0 / 25.4;

class TableTest : public testing::Test {
  protected:
    /// Shows the seat for what is in the session now.
    void show(QSize size = {1280, 800}, double pixels_per_mm = tablet_pixels_per_mm);
    void use(const std::string& profile);
    /// Touches what has this name on the sheet "More".
    [[nodiscard]] bool touch_more(const QString& name);
    /// What the window has no room for: the texts that end in dots.
    [[nodiscard]] QStringList cut() const;
    [[nodiscard]] QVariant theme(const char* property);
    void setTheme(const char* property, const QVariant& value);
    [[nodiscard]] Score score() const { return session->state().set.score; }
    [[nodiscard]] Jersey at(Team team, Position position) const;
    /// The last fact that counts, if it is of that kind.
    template <class F>
    [[nodiscard]] const F* last() {
        facts_ = session->facts();
        return facts_.empty() ? nullptr : std::get_if<F>(&facts_.back());
    }
    [[nodiscard]] static Jersey no(int number) { return Jersey{static_cast<std::uint8_t>(number)}; }

    void TearDown() override;

    std::unique_ptr<MemorySession> session =
        std::make_unique<MemorySession>("us-domestic-2014", harbour_cup_sheet("us-domestic-2014"));
    /// Between two touches of a person a second passes.
    testkit::HandClock clock{std::chrono::seconds{1}};
    std::unique_ptr<TableSeat> seat;
    std::unique_ptr<QQmlApplicationEngine> engine;
    QQuickWindow* window = nullptr;
    std::unique_ptr<ScreenHand> hand;

  private:
    [[nodiscard]] QObject* themeObject();
    std::unique_ptr<QObject> theme_holder_;
    std::vector<Fact> facts_;
};

}  // namespace courthand::client::test
