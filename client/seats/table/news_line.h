// What came in from outside and is still to be seen, one sentence after the other.
#pragma once

#include <QString>
#include <QStringList>

namespace courthand::client {

/// Counts as seen only what was on the screen when something was saved: a sentence that was hidden
/// behind a more urgent one, or whose touch failed, is shown on.
class NewsLine {
  public:
    /// False when the same sentence waits already. `hidden` as in `drawn`.
    bool add(const QString& words, bool hidden) {
        if (waiting_.contains(words)) return false;
        waiting_ << words;
        drawn(hidden);
        return true;
    }
    /// The oldest, which is the one to show; empty: none.
    [[nodiscard]] QString first() const { return waiting_.value(0); }
    [[nodiscard]] bool isEmpty() const { return waiting_.isEmpty(); }
    /// The screen shows `first`, or something else in its place.
    void drawn(bool hidden) { on_screen_ = !hidden && !isEmpty(); }
    /// After a touch: the sentence that the person has seen, which goes; empty: none.
    [[nodiscard]] QString seen(bool saved) {
        if (!saved || !on_screen_) return {};
        on_screen_ = false;
        return waiting_.takeFirst();
    }

  private:
    QStringList waiting_;  ///< oldest first
    bool on_screen_ = false;
};

}  // namespace courthand::client
