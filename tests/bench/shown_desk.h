// The desk seat in a window of its own, over a record in memory.
#pragma once

#include <QAbstractItemModel>
#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QString>
#include <memory>

#include "desk_seat.h"
#include "tests/bench/large_hall.h"
#include "venue/memory_board.h"
#include "venue/memory_desk.h"
#include "venue/memory_event.h"
#include "venue/memory_exporter.h"

namespace courthand::bench {

/// Every window that is measured has this size.
inline constexpr int window_width = 1366;
inline constexpr int window_height = 768;

/// A page of the desk and what is scrolled on it.
struct PageShown {
    const char* page;  ///< in DeskWindow.Page
    const char* list;  ///< objectName of its list
};

/// What a model has told since it was asked for the first time.
struct Told {
    int resets = 0;
    int layouts = 0;
    int inserted = 0;
    int removed = 0;
    int rows_changed = 0;
};

/// Throws std::runtime_error when something is not on the screen.
class ShownDesk {
  public:
    /// Loads the window; nothing is shown before the event loop has run.
    explicit ShownDesk(LargeHall hall);
    ~ShownDesk();
    ShownDesk(const ShownDesk&) = delete;
    ShownDesk& operator=(const ShownDesk&) = delete;

    [[nodiscard]] QQuickWindow& window() { return *window_; }
    /// Rows on the page that is shown first.
    [[nodiscard]] int rows() const { return seat_->matches()->count(); }
    /// The list or flickable of a page, which is shown from now on.
    [[nodiscard]] QQuickItem& show(const PageShown& page);
    /// A point on the next court, told by board and desk as their sources do.
    void next_rally();
    /// More of the record, as pages of a watch bring it.
    void say(const std::vector<event::Said>& facts) { event_.say(facts); }

    /// Counts what the list's model tells from now on, as long as the desk is shown.
    void watch(QQuickItem& list, Told& told);
    static void settle();

  private:
    LargeHall hall_;
    venue::MemoryEvent event_;
    venue::MemoryDesk desk_;
    venue::MemoryBoard board_;
    venue::MemoryExporter exporter_;
    std::unique_ptr<seats::DeskSeat> seat_;
    QQmlApplicationEngine engine_;
    QQuickWindow* window_ = nullptr;
    std::size_t court_ = 0;
};

}  // namespace courthand::bench
