// From a tap on the screen to the frame that shows what it did: the table seat beside a bare window
// of Qt with one rectangle. Without a display, drawn by the processor.
#include <benchmark/benchmark.h>

#include <QtQml/qqmlextensionplugin.h>
#include <QQmlApplicationEngine>
#include <QQmlComponent>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>
#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>

#include "memory_session.h"
#include "screen_hand.h"
#include "table_seat.h"
#include "tests/bench/latency.h"

Q_IMPORT_QML_PLUGIN(Courthand_DesignPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_TablePlugin)

namespace courthand::bench {
namespace {

using client::TableSeat;
using client::test::MemorySession;
using client::test::ScreenHand;

constexpr int taps = 100;
/// Points after which a new match is shown: a set must not end between two taps.
constexpr int most_points = 44;
constexpr std::chrono::seconds patience{5};

/// Counts frames, and asks at each one whether it shows what is waited for.
class FrameWatch {
  public:
    explicit FrameWatch(QQuickWindow& window) {
        QObject::connect(&window, &QQuickWindow::frameSwapped, &window, [this] {
            if (shows_ && shows_()) at_ = Latency::Clock::now();
        });
    }
    /// The time from the press of the button to the end of the first frame that shows it.
    Latency::Clock::duration tap(QQuickWindow& window, QPoint at, std::function<bool()> shows) {
        shows_ = std::move(shows);
        at_.reset();
        const auto before = Latency::Clock::now();
        QTest::mousePress(&window, Qt::LeftButton, Qt::NoModifier, at);
        QTest::mouseRelease(&window, Qt::LeftButton, Qt::NoModifier, at);
        while (!at_ && Latency::Clock::now() - before < patience)
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
        shows_ = nullptr;
        if (!at_) throw std::runtime_error{"the tap was not shown"};
        return *at_ - before;
    }

  private:
    std::function<bool()> shows_;
    std::optional<Latency::Clock::time_point> at_;
};

/// A window with one rectangle that changes its colour when it is tapped.
constexpr const char* bare_qml = R"(
import QtQuick
Window {
    id: frame
    width: 1280; height: 800; visible: true
    property bool lit: false
    Rectangle {
        x: 40; y: 300; width: 160; height: 160
        color: frame.lit ? "white" : "navy"
    }
    MouseArea { anchors.fill: parent; onClicked: frame.lit = !frame.lit }
}
)";

void bare_frame(benchmark::State& state) {
    QQmlEngine engine;
    QQmlComponent component{&engine};
    component.setData(bare_qml, QUrl{});
    const std::unique_ptr<QObject> made{component.create()};
    auto* const window = qobject_cast<QQuickWindow*>(made.get());
    if (window == nullptr) return state.SkipWithError("the bare window does not load");
    if (!QTest::qWaitForWindowExposed(window)) return state.SkipWithError("no window");
    FrameWatch frames{*window};
    Latency latency;
    bool lit = false;
    for (auto _ : state) {
        lit = !lit;
        latency.add(state, frames.tap(*window, {100, 350},
                                      [&] { return window->property("lit").toBool() == lit; }));
        QTest::qWait(1);
    }
    latency.report(state);
}

/// The table seat over a match in memory, ready for the first service.
class ShownTable {
  public:
    ShownTable() {
        client::test::ready_to_serve(session_);
        seat_ = std::make_unique<TableSeat>(session_);
        engine_.addImportPath(QStringLiteral("qrc:/qt/qml"));
        engine_.setInitialProperties({{QStringLiteral("seat"), QVariant::fromValue(seat_.get())},
                                      {QStringLiteral("width"), 1280},
                                      {QStringLiteral("height"), 800}});
        engine_.load(QUrl{QStringLiteral("qrc:/qt/qml/Courthand/Table/TableWindow.qml")});
        if (engine_.rootObjects().isEmpty()) throw std::runtime_error{"the seat does not load"};
        window_ = qobject_cast<QQuickWindow*>(engine_.rootObjects().front());
        if (window_ == nullptr || !QTest::qWaitForWindowExposed(window_))
            throw std::runtime_error{"the seat shows no window"};
        hand_ = std::make_unique<ScreenHand>(*window_);
        hand_->settle();
        frames_ = std::make_unique<FrameWatch>(*window_);
    }

    /// The rally goes to one side and the other in turn.
    Latency::Clock::duration next_rally() {
        const bool left = points_++ % 2 == 0;
        QQuickItem* const area = hand_->find(left ? "wonLeft" : "wonRight");
        QQuickItem* const shown = hand_->find(left ? "leftPoints" : "rightPoints");
        if (area == nullptr || shown == nullptr) throw std::runtime_error{"no area for the rally"};
        const QString expected = QString::number((points_ + 1) / 2);
        const QPointF middle = area->mapToScene({area->width() / 2, area->height() / 2});
        return frames_->tap(*window_, middle.toPoint(), [shown, expected] {
            return shown->property("text").toString() == expected;
        });
    }
    [[nodiscard]] int points() const noexcept { return points_; }
    /// Lets what still moves come to rest, so that each tap meets a quiet screen.
    void rest() { hand_->settle(); }

  private:
    MemorySession session_{"international-2025",
                           client::test::harbour_cup_sheet("international-2025")};
    std::unique_ptr<TableSeat> seat_;
    QQmlApplicationEngine engine_;
    QQuickWindow* window_ = nullptr;
    std::unique_ptr<ScreenHand> hand_;
    std::unique_ptr<FrameWatch> frames_;
    int points_ = 0;
};

void table_seat(benchmark::State& state) {
    auto table = std::make_unique<ShownTable>();
    Latency latency;
    for (auto _ : state) {
        if (table->points() >= most_points) {
            table.reset();
            table = std::make_unique<ShownTable>();
        }
        latency.add(state, table->next_rally());
        table->rest();
    }
    latency.report(state);
}

BENCHMARK(bare_frame)->Name("seat/bare_frame")->UseManualTime()->Iterations(taps);
BENCHMARK(table_seat)->Name("seat/tap_to_painted")->UseManualTime()->Iterations(taps);

}  // namespace
}  // namespace courthand::bench
