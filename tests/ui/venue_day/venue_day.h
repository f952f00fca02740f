// One court of a venue for a day: a real server with a database of its own, the match planned by
// the desk, a table seat and a head seat on their windows, each enrolled and connected over TLS.
#pragma once

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "client/app/head_screen.h"
#include "client/app/table_screen.h"
#include "match_course.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client::test {

/// Like a window of the program: its engine goes first.
struct SeatOnScreen {
    std::unique_ptr<QQmlApplicationEngine> engine;
    QQuickWindow* window = nullptr;
};

class VenueDay {
  public:
    static constexpr int court = 3;

    explicit VenueDay(const MatchCourse& course);

    [[nodiscard]] QQuickWindow& table_window() { return *table_.window; }
    [[nodiscard]] QQuickWindow& head_window() { return *head_.window; }
    [[nodiscard]] const JournaledMatch& match() const { return table_screen_->match(); }
    [[nodiscard]] seats::HeadSeat& head_seat() { return head_screen_->seat(); }

    /// The hash of the state as the server last told it to a head seat.
    [[nodiscard]] std::uint64_t hash_on_board() const;
    [[nodiscard]] bool all_sent() const { return table_screen_->station().all_sent(); }
    /// The bytes of the match in the journal of the table, and as the server has them.
    [[nodiscard]] std::vector<std::string> journaled() const;
    [[nodiscard]] std::vector<std::string> stored() const;

  private:
    void plan(const MatchCourse& course);
    void open_table();
    void open_head();

    // Each stands on those above it, and so goes before them.
    Venue venue_{std::vector<std::string>{}};
    std::filesystem::path table_folder_;
    std::unique_ptr<TableScreen> table_screen_;
    SeatOnScreen table_;
    std::unique_ptr<HeadScreen> head_screen_;
    SeatOnScreen head_;

    mutable std::mutex mutex_;
    std::uint64_t hash_on_board_ = 0;  ///< guarded by mutex_
    std::unique_ptr<venue::BoardClient> watch_;
};

}  // namespace courthand::client::test
