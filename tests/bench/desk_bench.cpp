// The desk seat on a tournament of 128 teams and 600 matches: until it shows them, frame by frame
// while it is scrolled and while points are played, and its memory. Beside it a window with a list
// of plain texts. Without a display, drawn by the processor.
#include <benchmark/benchmark.h>

#include <QtQml/qqmlextensionplugin.h>
#include <unistd.h>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QTest>
#include <algorithm>
#include <chrono>
#include <functional>
#include <optional>
#include <stdexcept>

#include "courthand/event/fold.h"
#include "tests/bench/process_course.h"
#include "tests/bench/shown_desk.h"
#include "tests/bench/thread_time.h"

Q_IMPORT_QML_PLUGIN(Courthand_DesignPlugin)
Q_IMPORT_QML_PLUGIN(Courthand_DeskPlugin)

namespace courthand::bench {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::duration;

constexpr std::chrono::seconds patience{10};
/// Frames of one measurement; a display shows them in ten seconds.
constexpr int frames = 600;
constexpr double frames_a_second = 60;
constexpr double frame_us = 1e6 / frames_a_second;
/// A quick flick: about a row a frame.
constexpr qreal step = 48;

/// Runs the event loop until a frame was shown that satisfies the condition.
void until_frame(QQuickWindow& window, const std::function<bool()>& shows) {
    bool shown = false;
    const auto connection = QObject::connect(&window, &QQuickWindow::frameSwapped, &window,
                                             [&] { shown = shown || shows(); });
    const auto before = Clock::now();
    while (!shown && Clock::now() - before < patience)
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
    QObject::disconnect(connection);
    if (!shown) throw std::runtime_error{"no frame was shown"};
}

/// Goes back and forth between the ends of what can be scrolled; both ways at once where there are
/// two.
class Scroller {
  public:
    explicit Scroller(QQuickItem& view) : view_{view} {}
    void next() {
        move("contentX", "originX", "contentWidth", view_.width(), across_);
        move("contentY", "originY", "contentHeight", view_.height(), down_);
    }

  private:
    void move(const char* at, const char* origin, const char* size, qreal shown, qreal& direction) {
        const qreal first = view_.property(origin).toReal();
        const qreal last = first + view_.property(size).toReal() - shown;
        if (last <= first) return;
        const qreal wanted = view_.property(at).toReal() + direction * step;
        if (wanted <= first || wanted >= last) direction = -direction;
        view_.setProperty(at, std::clamp(wanted, first, last));
    }

    QQuickItem& view_;
    qreal across_ = 1;
    qreal down_ = 1;
};

/// One iteration is one frame; its time is the processor time that it took.
void scroll(benchmark::State& state, QQuickWindow& window, QQuickItem& view,
            const std::function<void()>& before_frame = {}) {
    Scroller scroller{view};
    std::vector<double> us;
    const auto began = Clock::now();
    for (auto _ : state) {
        const double before = thread_seconds();
        if (before_frame) before_frame();
        scroller.next();
        until_frame(window, [] { return true; });
        us.push_back((thread_seconds() - before) * 1e6);
        state.SetIterationTime(us.back() / 1e6);
    }
    const double took = duration<double>(Clock::now() - began).count();
    state.counters["frames_per_second"] = static_cast<double>(us.size()) / took;
    const auto late =
        std::count_if(us.begin(), us.end(), [](double each) { return each > frame_us; });
    state.counters["late_share"] = static_cast<double>(late) / static_cast<double>(us.size());
    std::sort(us.begin(), us.end());
    state.counters["p50_us"] = us[us.size() / 2];
    state.counters["p99_us"] = us[us.size() * 99 / 100];
    state.counters["longest_us"] = us.back();
}

constexpr const char* bare_qml = R"(
import QtQuick
Window {
    visible: true
    ListView {
        objectName: "list"
        anchors.fill: parent
        anchors.leftMargin: 370; anchors.topMargin: 130
        model: 500
        clip: true
        delegate: Text { height: 48; text: "Row " + index }
    }
}
)";

/// A window with a list of 500 plain texts.
class BareWindow {
  public:
    BareWindow() {
        QQmlComponent component{&engine_};
        component.setData(bare_qml, QUrl{});
        made_.reset(component.createWithInitialProperties(
            {{QStringLiteral("width"), window_width}, {QStringLiteral("height"), window_height}}));
        if (window() == nullptr) throw std::runtime_error{"the bare window does not load"};
    }
    [[nodiscard]] QQuickWindow* window() { return qobject_cast<QQuickWindow*>(made_.get()); }
    [[nodiscard]] QQuickItem* list() {
        return window()->findChild<QQuickItem*>(QStringLiteral("list"));
    }

  private:
    QQmlEngine engine_;
    std::unique_ptr<QObject> made_;
};

void report_opening(benchmark::State& state, Clock::time_point began, double processor) {
    const double seconds = duration<double>(Clock::now() - began).count();
    state.SetIterationTime(seconds);
    state.counters["ms"] = seconds * 1e3;
    state.counters["processor_ms"] = (thread_seconds() - processor) * 1e3;
}

/// The first time in a process, as a desk is opened in the morning.
void open_desk(benchmark::State& state) {
    LargeHall hall = large_hall();
    for (auto _ : state) {
        const auto began = Clock::now();
        const double processor = thread_seconds();
        ShownDesk desk{std::move(hall)};
        until_frame(desk.window(), [&] { return desk.rows() == static_cast<int>(hall_matches); });
        report_opening(state, began, processor);
    }
}

void open_bare(benchmark::State& state) {
    for (auto _ : state) {
        const auto began = Clock::now();
        const double processor = thread_seconds();
        BareWindow bare;
        until_frame(*bare.window(), [] { return true; });
        report_opening(state, began, processor);
    }
}

void scroll_bare(benchmark::State& state) {
    BareWindow bare;
    until_frame(*bare.window(), [] { return true; });
    scroll(state, *bare.window(), *bare.list());
}

void scroll_desk(benchmark::State& state, PageShown page) {
    ShownDesk desk{large_hall()};
    QQuickItem& view = desk.show(page);
    scroll(state, desk.window(), view);
}

/// Points on 32 courts, one a second on each, spread over the frames of each second.
void scroll_in_play(benchmark::State& state, PageShown page) {
    ShownDesk desk{large_hall()};
    QQuickItem& view = desk.show(page);
    Told told;
    desk.watch(view, told);
    double due = 0;
    int rallies = 0;
    scroll(state, desk.window(), view, [&] {
        for (due += hall_courts / frames_a_second; due >= 1; --due, ++rallies) desk.next_rally();
    });
    if (told.resets + told.layouts + told.inserted + told.removed > 0)
        state.SkipWithError("rows were told anew");
    state.counters["rallies"] = rallies;
    state.counters["resets"] = told.resets + told.layouts;
    state.counters["rows_changed"] = told.rows_changed;
}

/// Courts of matches changed again and again, a page of a watch at a time.
void say_facts(ShownDesk& desk, std::size_t facts) {
    constexpr std::size_t page = 100;
    std::vector<event::Said> said;
    for (std::size_t n = 1; n <= facts; ++n) {
        event::MatchMoved moved;
        moved.match = "D1-A1";
        moved.court = static_cast<std::uint16_t>(1 + n % hall_courts);
        moved.at = {29'930'400 + static_cast<std::int32_t>(n % 600)};
        said.push_back({moved, {}});
        if (said.size() < page && n != facts) continue;
        desk.say(said);
        said.clear();
        QTest::qWait(1);
    }
}

void memory(benchmark::State& state) {
    constexpr std::size_t all_facts = 10'000;
    constexpr int updates = 1'000;
    const auto rss = [] { return look_at_process(getpid()).rss_mb; };
    for (auto _ : state) {
        LargeHall hall = large_hall();
        const std::size_t facts = hall.facts.size();
        ShownDesk desk{std::move(hall)};
        ShownDesk::settle();
        state.counters["open_mb"] = rss();
        say_facts(desk, all_facts - std::min(facts, all_facts));
        ShownDesk::settle();
        state.counters["all_facts_mb"] = rss();
        const auto play = [&] {
            for (int n = 0; n < updates; ++n) {
                desk.next_rally();
                QTest::qWait(0);
            }
            ShownDesk::settle();
            return rss();
        };
        state.counters["first_updates_mb"] = play();
        state.counters["more_updates_mb"] = play();
    }
}

constexpr PageShown matches{"Matches", "matchList"};
constexpr PageShown results{"Results", "resultList"};
constexpr PageShown entries{"Teams", "entryList"};
constexpr PageShown lists{"Teams", "teamList"};
constexpr PageShown bracket{"Bracket", "bracketView"};

#define SCROLL(measure, page, name) \
    BENCHMARK_CAPTURE(measure, page, page)->Name(name)->UseManualTime()->Iterations(frames)

BENCHMARK(open_desk)->Name("desk/open")->UseManualTime()->Iterations(1);
BENCHMARK(open_bare)->Name("desk/bare_open")->UseManualTime()->Iterations(1);
BENCHMARK(scroll_bare)->Name("desk/bare_scroll")->UseManualTime()->Iterations(frames);
SCROLL(scroll_desk, matches, "desk/scroll/matches");
SCROLL(scroll_desk, results, "desk/scroll/results");
SCROLL(scroll_desk, entries, "desk/scroll/teams");
SCROLL(scroll_desk, lists, "desk/scroll/team_lists");
SCROLL(scroll_desk, bracket, "desk/scroll/bracket");
SCROLL(scroll_in_play, matches, "desk/in_play/matches");
SCROLL(scroll_in_play, results, "desk/in_play/results");
BENCHMARK(memory)->Name("desk/memory")->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace courthand::bench
