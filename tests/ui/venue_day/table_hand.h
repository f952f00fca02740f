// A scorer at the table seat: plays the facts of a course with mouse, finger and keys on what is
// shown, in turn. Knows no view-model: everything is found by its name on the screen.
#pragma once

#include <QString>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "match_course.h"
#include "screen_hand.h"

namespace courthand::client::test {

class TableHand {
  public:
    TableHand(QQuickWindow& window, const MatchCourse& course);

    /// Plays the fact at `index`, and those after it that the same gesture records. How many; 0
    /// after a gesture that the screen did not take, which has failed the test.
    std::size_t play(std::size_t index);
    [[nodiscard]] ScreenHand& screen() { return hand_; }

    struct Gestures {
        int touches = 0;
        int clicks = 0;
        int keys = 0;
        int struck = 0;
    };
    [[nodiscard]] const Gestures& gestures() const { return gestures_; }

  private:
    enum class Way : std::uint8_t { finger, mouse, keys };

    bool toss(const Toss& toss);
    bool line_up(const LineUp& sheet);
    bool line_up_by_keys(const LineUp& sheet);
    bool line_up_by_tiles(const LineUp& sheet);
    bool checked(const LineUpChecked& check);
    bool replacement(const LiberoReplacement& act);
    bool replacement_by_keys(const LiberoReplacement& act, Jersey first);
    bool replacement_by_tiles(const LiberoReplacement& act, Jersey first);
    bool substitution(const Substitution& request);
    bool time_out(const TimeOut& time_out);
    bool serve(const Serve& serve);
    bool rally(const RallyWon& rally);
    /// A pause when the same rally area was touched just now.
    void let_rest(bool on_left);
    /// Records the wrong winner, and takes it back.
    bool slip(const RallyWon& rally);
    bool redesignation(const LiberoUnable& unable, const Redesignation& change);
    bool ruling(const Ruling& ruling);
    bool remark(const std::string& words);
    bool expected();
    /// Touches the team on a sheet, also the one that is chosen already.
    bool team_chosen(Team team);

    /// Waits until it can be touched where it is seen, then touches it by finger or mouse.
    bool press(const QString& name);
    bool key(Qt::Key key);
    bool type(Jersey jersey);
    bool gone(const QString& name);
    bool fail(const QString& words);
    /// In turn: finger, mouse, keys.
    Way next_way();
    [[nodiscard]] bool left(Team team) const;
    [[nodiscard]] QString side(Team team) const;
    /// The tile on the floor or beside it that shows the number; empty when there is none.
    [[nodiscard]] QString tile(Team team, Jersey jersey) const;
    [[nodiscard]] const MatchState& before() const { return course_.steps()[index_].before; }

    QQuickWindow& window_;
    ScreenHand hand_;
    const MatchCourse& course_;
    std::size_t index_ = 0;
    unsigned turn_ = 0;
    unsigned presses_ = 0;
    unsigned line_ups_ = 0;
    unsigned checks_ = 0;
    unsigned rallies_ = 0;
    std::optional<bool> rallied_;  ///< the last gesture was a rally, on the left or not
    Gestures gestures_;
};

}  // namespace courthand::client::test
